package vestibule.bridge.app;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.joran.JoranConfigurator;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.LoggingEvent;
import ch.qos.logback.classic.util.LogbackMDCAdapter;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.encoder.Encoder;
import java.io.UncheckedIOException;
import java.net.URL;
import java.nio.file.NoSuchFileException;
import java.util.Objects;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("A fault in the log")
class LoggedFaultTest {

    private static Exception fault() {
        Exception fault = new IllegalStateException(
                "could not write\nExempel^Zoe",
                new UncheckedIOException(new NoSuchFileException("/card/PG-0001_Exempel_Zoe/IMG_0001.JPG")));
        fault.addSuppressed(new IllegalArgumentException("born 1987-02-28"));
        return fault;
    }

    /** As the program sets it up before any command: with the file in its jar. */
    private static Encoder<ILoggingEvent> ofCommands(LoggerContext context) throws Exception {
        URL settings = Objects.requireNonNull(Main.class.getResource("/logback.xml"));
        JoranConfigurator configurator = new JoranConfigurator();
        configurator.setContext(context);
        configurator.doConfigure(settings);
        ConsoleAppender<ILoggingEvent> appender = (ConsoleAppender<ILoggingEvent>)
                context.getLogger(Logger.ROOT_LOGGER_NAME).getAppender("STDERR");
        return appender.getEncoder();
    }

    @ParameterizedTest
    @ValueSource(strings = {"text", "json", "commands"})
    @DisplayName("is one line, names its kinds, its places and its causes, and no patient, no file")
    void oneLine(String form) throws Exception {
        LoggerContext context = new LoggerContext();
        context.setMDCAdapter(new LogbackMDCAdapter());
        Encoder<ILoggingEvent> encoder =
                form.equals("commands") ? ofCommands(context) : ServiceLog.encoder(form, context);
        LoggingEvent event = new LoggingEvent(
                "caller",
                context.getLogger("vestibule.Somewhere"),
                Level.ERROR,
                "{}: a fault\r\nof ours",
                fault(),
                new Object[] {"deliver"});
        String line = new String(encoder.encode(event), UTF_8);
        assertThat(line).endsWith("\n");
        assertThat(line.strip())
                .doesNotContain("\n", "\r")
                .contains("ERROR", "Somewhere", "deliver: a fault")
                .contains("IllegalStateException", "UncheckedIOException", "NoSuchFileException")
                .contains("IllegalArgumentException", "LoggedFaultTest.java", "fault")
                .doesNotContain("Exempel", "PG-0001", "1987", "JPG");
    }
}
