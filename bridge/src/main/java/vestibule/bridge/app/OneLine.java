package vestibule.bridge.app;

import ch.qos.logback.classic.PatternLayout;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.IThrowableProxy;
import ch.qos.logback.classic.spi.ThrowableProxyUtil;
import java.util.regex.Pattern;

/**
 * An event of the log as text: one line, whatever it holds, and an exception on it without the message. Its pattern says nothing of
 * exceptions and of the end of the line.
 */
public final class OneLine extends PatternLayout {

    private static final Pattern BREAKS = Pattern.compile("\\s*[\\r\\n]\\s*");

    @Override
    public String doLayout(ILoggingEvent event) {
        String line = super.doLayout(event);
        IThrowableProxy fault = event.getThrowableProxy();
        String whole = fault == null ? line : line + ": " + ThrowableProxyUtil.asString(new NamelessFault(fault));
        return BREAKS.matcher(whole.strip()).replaceAll(" ") + System.lineSeparator();
    }
}
