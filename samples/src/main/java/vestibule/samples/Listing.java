package vestibule.samples;

import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** The truth about photographs as tab-separated text. */
final class Listing {
    private static final List<String> COLUMNS = List.of(
            "file",
            "photo id",
            "patient id",
            "issuer",
            "patient name",
            "birth date",
            "sex",
            "view",
            "capture",
            "exif orientation",
            "teeth",
            "taken",
            "stored patient orientation",
            "expected patient orientation",
            "note");

    private Listing() {}

    static String of(List<SamplePhoto> photos) {
        Map<String, SamplePhoto> named = new LinkedHashMap<>();
        for (SamplePhoto photo : photos) {
            named.put(photo.id() + ".jpg", photo);
        }
        return of(named);
    }

    /** A header line, then a line for each file. */
    static String of(Map<String, SamplePhoto> files) {
        StringBuilder text = new StringBuilder(String.join("\t", COLUMNS)).append('\n');
        files.forEach((file, photo) -> text.append(line(file, photo)).append('\n'));
        return text.toString();
    }

    private static String line(String file, SamplePhoto photo) {
        SamplePatient patient = photo.patient();
        return String.join(
                "\t",
                file,
                photo.id(),
                patient.id(),
                patient.issuer(),
                patient.name(),
                patient.birthDate() == null ? "" : patient.birthDate().toString(),
                patient.sex(),
                photo.view(),
                photo.capture().label(),
                Integer.toString(photo.exifOrientation()),
                photo.teeth().stream().map(String::valueOf).collect(Collectors.joining(",")),
                DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(photo.taken()),
                photo.storedOrientation(),
                photo.finalOrientation(),
                photo.note());
    }
}
