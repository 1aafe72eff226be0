package vestibule.bridge.settings;

import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import vestibule.bridge.view.Choice;
import vestibule.bridge.view.Customs;
import vestibule.bridge.view.DirectSetUp;
import vestibule.bridge.view.MirrorSetUp;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;

/** The section {@code [views]}: how the practice photographs and calls its views. */
final class Views {

    private static final String ID = "the id of a view; vestibule views lists them";

    private Views() {}

    static Set<String> keys() {
        Set<String> keys = new LinkedHashSet<>(List.of(
                "views.mirror",
                "views.mirror-of.*",
                "views.direct",
                "views.direct-of.*",
                "views.language",
                "views.labels.*",
                "views.tokens.*",
                "views.tooth-notation"));
        for (Choice choice : Choice.values()) {
            keys.add("views." + choice.key());
        }
        return keys;
    }

    static Customs of(SettingsReader reader) {
        Set<Choice> choices = EnumSet.noneOf(Choice.class);
        for (Choice choice : Choice.values()) {
            Optional<Boolean> other = reader.value(
                    "views." + choice.key(),
                    word -> word.equals(choice.usual()) || word.equals(choice.other())
                            ? Optional.of(word.equals(choice.other()))
                            : Optional.empty(),
                    "\"%s\" or \"%s\"".formatted(choice.usual(), choice.other()));
            if (other.orElse(false)) {
                choices.add(choice);
            }
        }
        Customs customs = new Customs(
                choices,
                reader.value(
                                "views.language",
                                word -> Customs.languages().contains(word) ? Optional.of(word) : Optional.empty(),
                                "one of " + Customs.languages())
                        .orElse("en"),
                reader.table(
                        "views.labels",
                        text -> text.isBlank() || TextForm.problem(VR.LO, text).isPresent()
                                ? Optional.empty()
                                : Optional.of(text),
                        "1 to 64 characters, no backslash and no line break"),
                reader.table("views.tokens", Views::id, ID),
                reader.value("views.mirror", MirrorSetUp::parse, Views::setUps),
                reader.table("views.mirror-of", MirrorSetUp::parse, Views::setUps),
                reader.value("views.direct", DirectSetUp::parse, "\"front\" or \"behind\"")
                        .orElse(DirectSetUp.FRONT),
                reader.table("views.direct-of", DirectSetUp::parse, "\"front\" or \"behind\""),
                reader.value("views.tooth-notation", Views::notation, "\"iso-3950\" or \"universal\"")
                        .orElse(Tooth.Notation.ISO_3950));
        check(reader, customs);
        return customs;
    }

    /** What was expected in place of a word, which may be one of an earlier version. */
    private static String setUps(String word) {
        return MirrorSetUp.WORDS + MirrorSetUp.insteadOf(word).map("; "::concat).orElse("");
    }

    private static void check(SettingsReader reader, Customs customs) {
        for (Map.Entry<String, String> label : customs.labels().entrySet()) {
            if (id(label.getKey()).isEmpty()) {
                reader.problems()
                        .add("%s: views.labels names %s, expected %s".formatted(reader.file(), label.getKey(), ID));
            }
        }
        Stream.concat(ViewCatalogue.of(customs).problems().stream(), customs.contradictions().stream())
                .forEach(problem -> reader.problems().add("%s: views: %s".formatted(reader.file(), problem)));
    }

    static Optional<String> id(String word) {
        return ViewCatalogue.standard().view(word).map(view -> word);
    }

    private static Optional<Tooth.Notation> notation(String word) {
        return switch (word) {
            case "iso-3950" -> Optional.of(Tooth.Notation.ISO_3950);
            case "universal" -> Optional.of(Tooth.Notation.UNIVERSAL);
            default -> Optional.empty();
        };
    }
}
