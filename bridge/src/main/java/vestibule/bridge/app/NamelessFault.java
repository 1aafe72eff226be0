package vestibule.bridge.app;

import ch.qos.logback.classic.spi.IThrowableProxy;
import ch.qos.logback.classic.spi.StackTraceElementProxy;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * An exception for the log: what kind it is, where it arose and why, without any message. Messages of libraries hold what went wrong, be it
 * a file's name or what was to be written into the outbox, and both may name a patient.
 *
 * @param whole the exception as it was logged
 */
record NamelessFault(IThrowableProxy whole) implements IThrowableProxy {

    @Override
    public String getMessage() {
        return "";
    }

    @Override
    public String getClassName() {
        return whole.getClassName();
    }

    @Override
    public StackTraceElementProxy[] getStackTraceElementProxyArray() {
        return whole.getStackTraceElementProxyArray();
    }

    @Override
    public int getCommonFrames() {
        return whole.getCommonFrames();
    }

    @Override
    public @Nullable IThrowableProxy getCause() {
        IThrowableProxy cause = whole.getCause();
        return cause == null ? null : new NamelessFault(cause);
    }

    @Override
    public IThrowableProxy[] getSuppressed() {
        return Arrays.stream(whole.getSuppressed()).map(NamelessFault::new).toArray(IThrowableProxy[]::new);
    }

    @Override
    public boolean isCyclic() {
        return whole.isCyclic();
    }
}
