package vestibule.conformance.fault;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Function;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.DestinationException;
import vestibule.conformance.fault.Script.Promise;
import vestibule.conformance.fault.Script.Reception;
import vestibule.conformance.fault.Script.Report;
import vestibule.conformance.fault.Script.Way;
import vestibule.dicom.data.Uid;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.SopReference;

/**
 * What an archive of the {@link Rehearsal} does, as its words say.
 *
 * @param script what it does with objects and requests
 * @param late every how many seconds it delivers reports that it kept back
 * @param reportTo whom it calls for that
 */
record Behaviour(Script script, OptionalLong late, Optional<ApplicationEntity> reportTo) {

    private static final Uid NOBODY_ASKED = new Uid("2.25.4711");
    private static final int PROCESSING_FAILURE = 0x0110;
    private static final String STATUS = "status=";
    private static final String LATE = "late=";
    private static final String FIRST = "first=";
    private static final String REPORT_TO = "report-to=";

    /**
     * Reads it.
     *
     * @param words the name, and what follows it
     */
    static Behaviour of(List<String> words) {
        String name = words.get(0);
        Script script = script(name);
        Optional<ApplicationEntity> reportTo = Optional.empty();
        for (String word : words.subList(1, words.size())) {
            if (word.startsWith(FIRST)) {
                script = new First(script, Rehearsal.number("first", word.substring(FIRST.length())));
            } else if (word.startsWith(REPORT_TO)) {
                reportTo = Optional.of(entity(word.substring(REPORT_TO.length())));
            } else {
                throw new IllegalArgumentException("archive: found %s, which is not known".formatted(word));
            }
        }
        OptionalLong late = name.startsWith(LATE) ? OptionalLong.of(seconds(name)) : OptionalLong.empty();
        if (late.isPresent() && reportTo.isEmpty()) {
            throw new IllegalArgumentException(
                    "late: found nobody to report to, expected report-to=dicom://HOST:PORT/TITLE");
        }
        return new Behaviour(script, late, reportTo);
    }

    static Script script(String name) {
        return switch (name) {
            case "healthy" -> Script.HEALTHY;
            case "forgets" -> storing(Reception.FORGOTTEN);
            case "full" -> storing(Reception.status(0xA700, false));
            case "refiles" -> storing(Reception.refiled("SOMEBODY-ELSE"));
            case "eats-answers" -> storing(Reception.ANSWER_EATEN);
            case "silent" -> promising(request -> Promise.silence());
            case "refuses" -> promising(request -> Promise.refused(PROCESSING_FAILURE));
            case "wrong-report" -> promising(Asked::wrong);
            case "repeats-report" -> promising(request -> Promise.reports(List.of(request.truth(), request.truth())));
            case "half-report" -> promising(Asked::half);
            default -> other(name);
        };
    }

    private static Script other(String name) {
        if (name.startsWith(LATE)) {
            return promising(request -> Promise.truth(request.request(), request.held(), Way.LATE));
        }
        if (name.startsWith(STATUS)) {
            String[] parts = name.substring(STATUS.length()).split(",", 2);
            if (parts.length == 2 && !parts[1].equals("kept")) {
                throw new IllegalArgumentException("status: found %s behind it, expected kept".formatted(parts[1]));
            }
            return storing(Reception.status(status(parts[0]), parts.length == 2));
        }
        throw new IllegalArgumentException("behaviour: found %s, which is not known".formatted(name));
    }

    private static int status(String text) {
        if (!text.matches("[0-9A-Fa-f]{4}")) {
            throw new IllegalArgumentException("status: found %s, expected four hexadecimal digits".formatted(text));
        }
        return Integer.parseInt(text, 16);
    }

    private static long seconds(String name) {
        long seconds = Rehearsal.number("late", name.substring(LATE.length()));
        if (seconds == 0) {
            throw new IllegalArgumentException("late: found 0, expected at least 1 second");
        }
        return seconds;
    }

    private static ApplicationEntity entity(String url) {
        try {
            return Destination.parse(url).entity();
        } catch (DestinationException e) {
            throw new IllegalArgumentException("report-to: " + e.getMessage(), e);
        }
    }

    private static Script storing(Reception always) {
        return new Script() {
            @Override
            public Reception store(HeldObject object, int number) {
                return always;
            }
        };
    }

    private static Script promising(Function<Asked, Promise> always) {
        return new Script() {
            @Override
            public Promise commit(CommitmentRequest request, List<SopReference> held, int number) {
                return always.apply(new Asked(request, held));
            }
        };
    }

    /** A request for commitment, and what the archive has of it. */
    private record Asked(CommitmentRequest request, List<SopReference> held) {

        Report truth() {
            return Promise.truthfulReport(request, held, Way.SAME_ASSOCIATION);
        }

        /** Everything is promised under a transaction that nobody asked for. */
        Promise wrong() {
            return Promise.reports(List.of(new Report(NOBODY_ASKED, 1, held, List.of(), 0, Way.SAME_ASSOCIATION)));
        }

        /** The later half, the only object if there is but one, could not be seen to. */
        Promise half() {
            int kept = held.size() / 2;
            return Promise.reports(List.of(new Report(
                    request.transaction(),
                    2,
                    held.subList(0, kept),
                    held.subList(kept, held.size()),
                    PROCESSING_FAILURE,
                    Way.SAME_ASSOCIATION)));
        }
    }

    /** Misbehaves for a while, and is healthy from then on. */
    private record First(Script bad, long most) implements Script {
        @Override
        public Reception store(HeldObject object, int number) {
            return (number < most ? bad : Script.HEALTHY).store(object, number);
        }

        @Override
        public Promise commit(CommitmentRequest request, List<SopReference> held, int number) {
            return (number < most ? bad : Script.HEALTHY).commit(request, held, number);
        }
    }
}
