package vestibule.bridge.settings;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Set;

/**
 * Which cards and folders are watched, and how.
 *
 * @param folders where the service looks
 * @param settle how long a file must stay as it is before it is taken for whole
 * @param rescan how often each folder is looked through, whatever the system says about changes
 * @param hangs how long a look may take without finishing a file before the folder is said to hang
 * @param leaveAlone names of files and folders that are not looked at, beside the usual ones
 */
public record Intake(List<Path> folders, Duration settle, Duration rescan, Duration hangs, List<String> leaveAlone) {

    static final Set<String> KEYS =
            Set.of("intake.folders", "intake.settle", "intake.rescan", "intake.hangs", "intake.leave-alone");

    static final Intake UNSAID =
            new Intake(List.of(), Duration.ofSeconds(2), Duration.ofSeconds(30), Duration.ofMinutes(2), List.of());

    public Intake {
        folders = List.copyOf(folders);
        leaveAlone = List.copyOf(leaveAlone);
    }

    static Intake of(SettingsReader reader) {
        return new Intake(
                reader.values("intake.folders", Home::path, "a folder"),
                duration(reader, "intake.settle", UNSAID.settle),
                duration(reader, "intake.rescan", UNSAID.rescan),
                duration(reader, "intake.hangs", UNSAID.hangs),
                reader.values("intake.leave-alone", Home::notEmpty, "a name, with * for any characters"));
    }

    static Duration duration(SettingsReader reader, String key, Duration unless) {
        return reader.value(key, text -> Measures.duration(text).filter(time -> !time.isZero()), Measures.DURATION)
                .orElse(unless);
    }
}
