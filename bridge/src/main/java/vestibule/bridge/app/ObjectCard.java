package vestibule.bridge.app;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import vestibule.bridge.sheet.Card;
import vestibule.bridge.sheet.Thumbnail;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.jpeg.Turn;

/** A photograph's object as a card of the contact sheet: the picture as it lies in the object, and what the object says of it. */
final class ObjectCard {

    private static final int LARGEST = 64 << 20;

    private ObjectCard() {}

    static Card of(DicomFile file, Tooth.Notation notation) throws IOException {
        DataSet object = file.dataSet();
        List<String> lies = object.texts(Attributes.PATIENT_ORIENTATION);
        List<String> facts = new ArrayList<>();
        text(object, Attributes.ACQUISITION_DATE_TIME).ifPresent(taken -> facts.add("taken: " + moment(taken)));
        List<String> shown = object.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE).stream()
                .map(item -> words(item, notation))
                .toList();
        if (!shown.isEmpty()) {
            facts.add("shows: " + String.join(", ", shown));
        }
        text(object, Attributes.DERIVATION_DESCRIPTION).ifPresent(words -> facts.add("changes: " + words));
        text(object, Attributes.SOP_INSTANCE_UID).ifPresent(uid -> facts.add("object: " + uid));
        return new Card(
                String.valueOf(file.path().getFileName()),
                said(object).contains("picture=uncorrected") ? Card.Standing.UNCORRECTED : Card.Standing.FILED,
                text(object, Attributes.IMAGE_COMMENTS),
                side(object.text(Attributes.IMAGE_LATERALITY).orElse("")),
                lies.size() == 2 ? Optional.of(new Card.Directions(lies.get(0), lies.get(1))) : Optional.empty(),
                facts,
                Optional.empty(),
                picture(object));
    }

    /** Image Laterality in words (PS3.3 C.8.12.1; B as intra-oral radiographs have it, C.8.11.9). */
    static String side(String laterality) {
        return switch (laterality) {
            case "R" -> "patient's right";
            case "L" -> "patient's left";
            case "B" -> "both sides";
            case "U" -> "unpaired";
            default -> "not said";
        };
    }

    private static Optional<byte[]> picture(DataSet object) throws IOException {
        Optional<Value> pixels = object.find(Attributes.PIXEL_DATA).map(element -> element.value());
        if (pixels.isEmpty()
                || !(pixels.get() instanceof Value.Fragments fragments)
                || fragments.fragments().size() != 1) {
            return Optional.empty();
        }
        Bulk stream = fragments.fragments().get(0);
        return stream.length() > LARGEST ? Optional.empty() : Thumbnail.of(stream.bytes(LARGEST), Turn.NONE);
    }

    private static String words(DataSet item, Tooth.Notation notation) {
        Code code = new Code(
                item.text(Attributes.CODE_VALUE).orElse(""),
                item.text(Attributes.CODING_SCHEME_DESIGNATOR).orElse(""),
                item.text(Attributes.CODE_MEANING).orElse(""));
        return ViewCatalogue.standard()
                .tooth(code)
                .map(tooth -> tooth.words(notation))
                .orElse(code.meaning());
    }

    private static String said(DataSet object) {
        return object.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION).orElse("");
    }

    private static Optional<String> text(DataSet object, Attribute attribute) {
        return object.text(attribute).map(String::strip).filter(text -> !text.isEmpty());
    }

    /** A date and time as people write it. */
    private static String moment(String text) {
        return text.length() < 14
                ? text
                : "%s-%s-%s %s:%s:%s"
                        .formatted(
                                text.substring(0, 4),
                                text.substring(4, 6),
                                text.substring(6, 8),
                                text.substring(8, 10),
                                text.substring(10, 12),
                                text.substring(12, 14));
    }

    /** A name as people write it: the groups one after another, the parts with blanks. */
    static String name(String value) {
        return java.util.Arrays.stream(value.split("=", -1))
                .map(group -> group.replace('^', ' ').strip())
                .filter(group -> !group.isEmpty())
                .collect(Collectors.joining(" · "));
    }
}
