package vestibule.bridge.app;

import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.net.Deadlines;

/** How the program understands photographs: whose, which view, which study; and the objects made of that. */
final class Workshop implements Understanding {

    private final Clock clock;

    Workshop(Clock clock) {
        this.clock = clock;
    }

    @Override
    public Deciding deciding(Settings settings, Optional<Destination> archive, String ourTitle, Memory memory)
            throws Failure {
        return new Decider(
                settings,
                KnownDirectories.of(settings.patients(), archive, ourTitle, Deadlines.DEFAULT),
                new SetViewing(rules(settings)),
                Optional.of(new VisitStudying(
                        settings,
                        ArchiveStudies.of(archive, ourTitle, Deadlines.DEFAULT),
                        settings.practice().zone().orElse(clock.getZone()))),
                memory,
                clock);
    }

    @Override
    public Making making(Settings settings, Path scratch) {
        return new ObjectMaking(settings.practice(), rules(settings), clock, scratch);
    }

    static ViewRules rules(Settings settings) {
        return ViewRules.of(
                settings.views(), settings.sets(), settings.practice().coding(), Optional.empty());
    }
}
