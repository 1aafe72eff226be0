package vestibule.bridge.object;

import java.io.IOException;
import java.util.stream.Collectors;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.Picture;
import vestibule.bridge.settings.Practice;
import vestibule.bridge.view.Placement;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.CharacterSet;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.jpeg.Turn;

/**
 * A VL Photographic Image (PS3.3 A.32.4) made of a photograph and what was decided about it.
 *
 * @param dataSet the whole object; its pixel data names bytes of the photo's file, or of the picture made from it
 * @param transferSyntax how it is to be written
 */
public record PhotographicObject(DataSet dataSet, TransferSyntax transferSyntax) {

    /**
     * Everything an object is made of; the same material gives the same object, byte for byte.
     *
     * @param photo the photograph
     * @param picture its picture in the form that the object carries
     * @param patient who is on it
     * @param placement what it shows, which side, which way round
     * @param visit the study and series
     * @param practice the settings of the practice
     * @param standing how the object stands to others of the same photograph
     * @param edition how often an object of the photograph was taken back before; an identifier that was taken back is never used again
     */
    public record Material(
            Photo photo,
            Picture picture,
            Patient patient,
            Placement placement,
            Visit visit,
            Practice practice,
            Standing standing,
            int edition) {

        /** A picture by mirror that was not put right is never passed off as finished, nor one that was turned otherwise. */
        public Material {
            Turn expected = standing instanceof Standing.Recorded ? Turn.NONE : wanted(photo, placement, standing);
            if (picture.changes().turn() != expected) {
                throw new IllegalArgumentException("the picture was laid down by %s where %s puts it right"
                        .formatted(picture.changes().turn(), expected));
            }
        }

        /** What leads from the picture as recorded to the finished one. */
        Turn turn() {
            return wanted(photo, placement, standing);
        }

        /** A copy was made from a picture that had been put right already. */
        private static Turn wanted(Photo photo, Placement placement, Standing standing) {
            return standing instanceof Standing.Copy
                    ? photo.upright()
                    : photo.upright().then(placement.putRight());
        }
    }

    /** SOP Instance UID. */
    public Uid sopInstance() {
        return dataSet.text(Attributes.SOP_INSTANCE_UID).flatMap(Uid::parse).orElseThrow();
    }

    /**
     * Makes the object, module by module in the order of PS3.3 Table A.32.4-1.
     *
     * @throws IOException if a value given by a person does not fit its attribute
     */
    public static PhotographicObject of(Material material) throws IOException {
        Moments moments = Moments.of(material);
        DataSet.Builder object = DataSet.builder();
        PatientModules.put(object, material);
        StudyModules.put(object, material, moments);
        EquipmentModules.put(object, material);
        moments.putAcquisition(object);
        ImageModules.put(object, material);
        ReferenceModules.put(object, material);
        PixelModules.put(object, material.picture());
        SopModules.put(object, material);
        putCharacterSet(object);
        SopModules.putInstance(object, material);
        return new PhotographicObject(object.build(), PixelModules.transferSyntax(material.picture()));
    }

    /** Specific Character Set is there exactly if a text leaves the default repertoire (PS3.3 C.12.1.1.2). */
    static void putCharacterSet(DataSet.Builder object) {
        CharacterSet needed = CharacterSet.toWrite(textOf(object.build()));
        if (!needed.terms().isEmpty()) {
            object.put(Attributes.SPECIFIC_CHARACTER_SET, needed.terms().toArray(String[]::new));
        }
    }

    private static String textOf(DataSet dataSet) {
        return dataSet.stream()
                .map(Element::value)
                .map(value -> {
                    if (value instanceof Value.Texts texts) {
                        return String.join("", texts.all());
                    }
                    return value instanceof Value.Items items
                            ? items.all().stream()
                                    .map(PhotographicObject::textOf)
                                    .collect(Collectors.joining())
                            : "";
                })
                .collect(Collectors.joining());
    }
}
