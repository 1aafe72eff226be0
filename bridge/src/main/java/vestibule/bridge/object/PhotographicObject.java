package vestibule.bridge.object;

import java.io.IOException;
import java.util.stream.Collectors;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.settings.Practice;
import vestibule.bridge.view.Placement;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.CharacterSet;
import vestibule.dicom.io.TransferSyntax;

/**
 * A VL Photographic Image (PS3.3 A.32.4) made of a photograph and what was decided about it.
 *
 * @param dataSet the whole object; its pixel data names ranges of the photo's file
 * @param transferSyntax how it is to be written
 */
public record PhotographicObject(DataSet dataSet, TransferSyntax transferSyntax) {

    /**
     * Everything an object is made of; the same material gives the same object, byte for byte.
     *
     * @param photo the photograph
     * @param patient who is on it
     * @param placement what it shows, which side, which way round
     * @param visit the study and series
     * @param practice the settings of the practice
     */
    public record Material(Photo photo, Patient patient, Placement placement, Visit visit, Practice practice) {}

    /**
     * Makes the object, module by module in the order of PS3.3 Table A.32.4-1.
     *
     * @throws PhotoException if the photograph cannot go in without loss or without being turned
     * @throws IOException if a value given by a person does not fit its attribute
     */
    public static PhotographicObject of(Material material) throws PhotoException, IOException {
        PixelModules pixels = PixelModules.of(material);
        Moments moments = Moments.of(material);
        DataSet.Builder object = DataSet.builder();
        PatientModules.put(object, material);
        StudyModules.put(object, material, moments);
        EquipmentModules.put(object, material);
        moments.putAcquisition(object);
        ImageModules.put(object, material);
        pixels.put(object);
        SopModules.put(object, material, moments);
        putCharacterSet(object);
        SopModules.putInstance(object, material, pixels);
        return new PhotographicObject(object.build(), TransferSyntax.JPEG_BASELINE);
    }

    /** Specific Character Set is there exactly if a text leaves the default repertoire (PS3.3 C.12.1.1.2). */
    private static void putCharacterSet(DataSet.Builder object) {
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
