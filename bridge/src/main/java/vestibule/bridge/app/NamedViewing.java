package vestibule.bridge.app;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.MirrorCorrection;
import vestibule.bridge.view.ViewCatalogue;

/** Views that a person said, or that stand as a word in the name of the file. */
final class NamedViewing implements Viewing {

    private final CodingProfile coding;

    NamedViewing(CodingProfile coding) {
        this.coding = coding;
    }

    @Override
    public List<Look> look(Sitting sitting) {
        return sitting.shots().stream().map(this::look).toList();
    }

    private Look look(Sitting.Shot shot) {
        Words words = new Words(shot.candidate());
        List<Ground> grounds = new ArrayList<>();
        Set<String> tokens = tokens(shot.candidate().name());
        Set<String> views = tokens.stream()
                .filter(token -> ViewCatalogue.standard().view(token).isPresent())
                .collect(Collectors.toSet());
        Optional<String> view = words.last("view", grounds);
        if (view.isEmpty() && views.size() == 1) {
            view = views.stream().findFirst();
            grounds.add(new Ground(
                    "view",
                    "file-name",
                    shot.candidate().takenIn(),
                    shot.candidate().name()));
        }
        if (view.isEmpty()) {
            return new Unsure("no-view", "nothing says which view it shows; say so with --view", Optional.empty());
        }
        Optional<Capture> capture = words.last("capture", grounds)
                .or(() -> tokens.stream()
                        .filter(token -> Capture.parse(token).isPresent())
                        .findFirst())
                .flatMap(Capture::parse);
        DecisionText.Shown shown = new DecisionText.Shown(
                view.get(),
                capture,
                words.last("correct-by", grounds).flatMap(MirrorCorrection::parse),
                words.last("like", grounds),
                words.last("teeth", grounds)
                        .map(text -> Arrays.asList(text.split(",")))
                        .orElse(List.of()));
        return checked(shown, grounds);
    }

    private Look checked(DecisionText.Shown shown, List<Ground> grounds) {
        try {
            shown.placement(coding);
            return new Seen(shown, grounds);
        } catch (ContradictionException e) {
            String sentence = String.valueOf(e.getMessage());
            return new Unsure("view-contradiction", sentence.replaceAll("\\.$", ""), Optional.empty());
        } catch (Failure unknown) {
            return new Unsure(
                    "view-unknown", "a view or a tooth that was said is not in the catalogue", Optional.empty());
        }
    }

    private static Set<String> tokens(String name) {
        String file = name.substring(name.lastIndexOf('/') + 1).replaceAll("\\.[A-Za-z]+$", "");
        return Arrays.stream(file.split("[_ .]+")).collect(Collectors.toSet());
    }
}
