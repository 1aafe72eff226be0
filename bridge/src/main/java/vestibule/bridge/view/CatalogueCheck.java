package vestibule.bridge.view;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;

/**
 * What must be true of every catalogue, ours or a practice's: a slip in it would put left for right in every photograph of a view. The
 * geometry is that of the trade facts, F-01 to F-03.
 */
final class CatalogueCheck {

    private static final int LONGEST_LABEL = 64;

    private final List<String> problems = new ArrayList<>();

    private CatalogueCheck() {}

    /** A sentence without a full stop for each thing that is wrong. */
    static List<String> problems(Collection<View> views) {
        CatalogueCheck check = new CatalogueCheck();
        Map<String, String> labels = new HashMap<>();
        for (View view : views) {
            check.view(view);
            String other = labels.putIfAbsent(view.label(), view.id());
            if (other != null) {
                check.problems.add(
                        "%s and %s have the same label, so nobody could tell them apart".formatted(other, view.id()));
            }
        }
        return check.problems;
    }

    private void view(View view) {
        if (!view.id().matches("[a-z0-9]+(-[a-z0-9]+)*")) {
            problems.add(view.id() + " is no id: small letters and digits parted by hyphens");
        }
        if (view.label().isBlank()
                || view.label().length() > LONGEST_LABEL
                || TextForm.problem(VR.LO, view.label()).isPresent()) {
            problems.add("the label of %s must have 1 to %d characters, no backslash and no line break"
                    .formatted(view.id(), LONGEST_LABEL));
        }
        if (view.frames().isEmpty()) {
            problems.add(view.id() + " does not say how its frame lies");
        }
        if (view.orientation().isPresent() != view.look().isPresent()
                || (view.mode() == View.Mode.NONE && view.orientation().isPresent())) {
            problems.add(view.id() + " has a direction without a way the camera looks, or the other way round");
        } else if (view.look().isPresent()) {
            finished(view);
            recorded(view, view.front());
            recorded(view, view.behind());
        }
    }

    private void finished(View view) {
        for (String value : view.accepted()) {
            Optional<Orientation> orientation = Orientation.parse(value).filter(Orientation::legal);
            if (orientation.isEmpty()
                    || !orientation.get().unmirrored(view.look().orElseThrow())) {
                problems.add("the finished picture of %s would be mirrored or has no direction at all: %s"
                        .formatted(view.id(), value));
            }
        }
        if (!view.accepted().contains(view.orientation().orElseThrow())) {
            problems.add(view.id() + " does not accept its own direction");
        }
    }

    /** A mirror picture is put right by a mirror image, and any other never is (F-03). */
    private void recorded(View view, View.Recorded recorded) {
        Optional<Orientation> letters =
                recorded.orientation().flatMap(Orientation::parse).filter(Orientation::legal);
        if (letters.isEmpty()) {
            problems.add(view.id() + " does not say what the camera records");
            return;
        }
        boolean reversed = view.mirror() == View.Mirror.ALWAYS;
        if (letters.get().unmirrored(view.look().orElseThrow()) == reversed
                || recorded.putRight().mirrors() != reversed) {
            problems.add("%s: %s by %s does not go with how it is taken"
                    .formatted(view.id(), letters.get(), recorded.putRight()));
        }
        boolean leads = view.accepted().stream()
                .flatMap(value -> Orientation.parse(value).stream())
                .anyMatch(finished -> letters.get().turnTo(finished).equals(Optional.of(recorded.putRight())));
        if (!leads && view.orientation().orElseThrow().indexOf('\\') > 0 && !coarser(view, letters.get(), recorded)) {
            problems.add("%s: %s by %s does not give %s"
                    .formatted(
                            view.id(),
                            letters.get(),
                            recorded.putRight(),
                            view.orientation().orElseThrow()));
        }
    }

    /** A practice may state the main direction alone, as A\F for LA\F. */
    private static boolean coarser(View view, Orientation letters, View.Recorded recorded) {
        Orientation given = letters.after(recorded.putRight());
        Orientation stated = Orientation.parse(view.orientation().orElseThrow()).orElseThrow();
        return given.rows().contains(stated.rows()) && given.columns().contains(stated.columns());
    }
}
