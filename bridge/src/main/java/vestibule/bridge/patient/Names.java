package vestibule.bridge.patient;

import java.text.Normalizer;
import java.util.Locale;
import java.util.Optional;
import vestibule.dicom.data.PersonName;

/** Whether two names can be those of one person: a folder's name has no accents, and a list may leave a middle name out. */
final class Names {

    private Names() {}

    /** Whether family and given name are the same, and nothing else that both have differs. */
    static boolean agree(PersonName one, PersonName other) {
        Optional<Boolean> alphabetic = agree(one.alphabetic(), other.alphabetic());
        Optional<Boolean> ideographic = agree(one.ideographic(), other.ideographic());
        Optional<Boolean> phonetic = agree(one.phonetic(), other.phonetic());
        boolean differs = alphabetic.equals(Optional.of(false))
                || ideographic.equals(Optional.of(false))
                || phonetic.equals(Optional.of(false));
        boolean same = alphabetic.or(() -> ideographic).or(() -> phonetic).orElse(false);
        return same && !differs;
    }

    /** Whether they may be names of one person before and after one part of it changed; in different scripts they always may. */
    static boolean related(PersonName one, PersonName other) {
        return related(one.alphabetic(), other.alphabetic())
                .or(() -> related(one.ideographic(), other.ideographic()))
                .orElse(true);
    }

    private static Optional<Boolean> related(PersonName.Group one, PersonName.Group other) {
        return one.isEmpty() || other.isEmpty()
                ? Optional.empty()
                : Optional.of(folded(one.family()).equals(folded(other.family()))
                        || folded(one.given()).equals(folded(other.given())));
    }

    /** Empty where one of them has no such group, so that nothing can be compared. */
    private static Optional<Boolean> agree(PersonName.Group one, PersonName.Group other) {
        if (one.isEmpty() || other.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(folded(one.family()).equals(folded(other.family()))
                && folded(one.given()).equals(folded(other.given()))
                && agree(one.middle(), other.middle())
                && agree(one.suffix(), other.suffix()));
    }

    private static boolean agree(String one, String other) {
        return one.isBlank() || other.isBlank() || folded(one).equals(folded(other));
    }

    /** Without case, accents, hyphens and doubled blanks. */
    private static String folded(String text) {
        return Normalizer.normalize(text, Normalizer.Form.NFKD)
                .replaceAll("\\p{M}", "")
                .replaceAll("[-'’ ]+", " ")
                .strip()
                .toLowerCase(Locale.ROOT);
    }
}
