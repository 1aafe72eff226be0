package vestibule.validator;

import java.util.ArrayList;
import java.util.List;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Dictionary;

/**
 * An object with one thing changed.
 *
 * @param what the change and its place, in words
 * @param changed the object after it
 */
record Mutation(String what, DataSet changed) {

    /** A change of one element; null takes it out. */
    private interface Change {
        List<Element> of(Element element);
    }

    /** Every element at every depth, taken out. */
    static List<Mutation> removals(DataSet good) {
        return each(good, "remove", element -> List.of());
    }

    /** Every element at every depth that has a value, without it. */
    static List<Mutation> emptyings(DataSet good) {
        return each(good, "empty", element -> element.isEmpty() ? List.of(element) : List.of(emptied(element)));
    }

    /** Every code string, with a word that no list has. */
    static List<Mutation> unknownWords(DataSet good) {
        return each(
                good,
                "unknown word",
                element -> List.of(
                        element.vr() == VR.CS
                                ? new Element(element.tag(), VR.CS, new Value.Texts(List.of("XYZZY")))
                                : element));
    }

    /** Every text, in a form that its representation does not have. */
    static List<Mutation> illForms(DataSet good) {
        return each(good, "ill form", element -> List.of(illFormed(element)));
    }

    /** Every sequence with its first item twice. */
    static List<Mutation> doubledItems(DataSet good) {
        return each(good, "item twice", element -> {
            if (element.value() instanceof Value.Items items && !items.all().isEmpty()) {
                List<DataSet> more = new ArrayList<>(items.all());
                more.add(items.all().get(0));
                return List.of(new Element(element.tag(), VR.SQ, new Value.Items(more)));
            }
            return List.of(element);
        });
    }

    private static List<Mutation> each(DataSet good, String name, Change change) {
        List<Mutation> mutations = new ArrayList<>();
        for (Element element : good) {
            String place = Dictionary.standard().describe(element.tag());
            List<Element> changed = change.of(element);
            if (!changed.equals(List.of(element))) {
                mutations.add(new Mutation(name + " " + place, replaced(good, element.tag(), changed)));
            }
            if (element.value() instanceof Value.Items items && !items.all().isEmpty()) {
                for (Mutation inner : each(items.all().get(0), name, change)) {
                    List<DataSet> rest = new ArrayList<>(items.all());
                    rest.set(0, inner.changed);
                    Element with = new Element(element.tag(), VR.SQ, new Value.Items(rest));
                    mutations.add(
                            new Mutation(inner.what + " in " + place, replaced(good, element.tag(), List.of(with))));
                }
            }
        }
        return mutations;
    }

    private static DataSet replaced(DataSet dataSet, Tag tag, List<Element> by) {
        DataSet.Builder builder = DataSet.builder();
        dataSet.stream().filter(element -> !element.tag().equals(tag)).forEach(builder::put);
        by.forEach(builder::put);
        return builder.build();
    }

    private static Element emptied(Element element) {
        Value nothing = element.value() instanceof Value.Fragments
                ? new Value.Binary(Bulk.EMPTY)
                : switch (element.vr().kind()) {
                    case TEXT -> new Value.Texts(List.of());
                    case INTEGER -> new Value.Integers(List.of());
                    case REAL -> new Value.Reals(List.of());
                    case BINARY -> new Value.Binary(Bulk.EMPTY);
                    case SEQUENCE -> new Value.Items(List.of());
                };
        return new Element(element.tag(), element.vr(), nothing);
    }

    private static Element illFormed(Element element) {
        String text = switch (element.vr()) {
            case CS -> "lower-case";
            case DA -> "2026-3-3";
            case TM -> "25:61:00";
            case DT -> "20261301";
            case IS -> "one";
            case DS -> "seven";
            case UI -> "1..2";
            case AS -> "36";
            case SH -> "0123456789012345678901234567890123456789";
            case LO, PN -> "x".repeat(65);
            default -> "";
        };
        return text.isEmpty() ? element : new Element(element.tag(), element.vr(), new Value.Texts(List.of(text)));
    }
}
