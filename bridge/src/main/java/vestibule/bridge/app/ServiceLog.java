package vestibule.bridge.app;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.encoder.JsonEncoder;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.IThrowableProxy;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.encoder.Encoder;
import ch.qos.logback.core.encoder.LayoutWrappingEncoder;
import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;
import vestibule.bridge.settings.Service;

/** How the service logs: to standard error, a line an event, as text or as JSON. No patient and no file is named in it. */
final class ServiceLog {

    private static final String TEXT = "%d{yyyy-MM-dd'T'HH:mm:ss.SSSXXX} %-5level %thread %logger{0}: %msg%nopex";

    private ServiceLog() {}

    /** Sets it up by the settings. A context with logging switched off, as tests have, is left alone. */
    static void configure(Service settings) {
        if (!(LoggerFactory.getILoggerFactory() instanceof LoggerContext context)) {
            return;
        }
        Logger root = context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME);
        if (root.getLevel() == Level.OFF) {
            return;
        }
        ConsoleAppender<ILoggingEvent> appender = new ConsoleAppender<>();
        appender.setContext(context);
        appender.setTarget("System.err");
        appender.setEncoder(encoder(settings.log(), context));
        appender.start();
        root.detachAndStopAllAppenders();
        root.addAppender(appender);
        root.setLevel(Level.toLevel(settings.level()));
        for (String library : new String[] {"com.zaxxer.hikari", "org.flywaydb", "org.jdbi"}) {
            context.getLogger(library).setLevel(Level.WARN);
        }
    }

    /** Makes a line of an event, in the form that settings name. */
    static Encoder<ILoggingEvent> encoder(String form, LoggerContext context) {
        return form.equals("json") ? json(context) : text(context);
    }

    private static Encoder<ILoggingEvent> json(LoggerContext context) {
        JsonEncoder encoder = new NamelessJson();
        encoder.setContext(context);
        encoder.setWithFormattedMessage(true);
        encoder.setWithMessage(false);
        encoder.setWithArguments(false);
        encoder.start();
        return encoder;
    }

    private static Encoder<ILoggingEvent> text(LoggerContext context) {
        OneLine layout = new OneLine();
        layout.setContext(context);
        layout.setPattern(TEXT);
        layout.start();
        LayoutWrappingEncoder<ILoggingEvent> encoder = new LayoutWrappingEncoder<>();
        encoder.setContext(context);
        encoder.setLayout(layout);
        encoder.start();
        return encoder;
    }

    /** Leaves out what exceptions say, at every depth. */
    private static final class NamelessJson extends JsonEncoder {
        @Override
        protected void appendThrowableProxy(StringBuilder line, String name, @Nullable IThrowableProxy fault) {
            super.appendThrowableProxy(line, name, fault == null ? null : new NamelessFault(fault));
        }
    }
}
