package vestibule.bridge.photo;

import com.drew.lang.Rational;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;

/** Turns Exif values into the attributes of the photographic modules, by the committed table (PS3.3 C.8.12.10, C.8.12.11). */
final class ExposureAttributes {

    private static final int FLASH = 0x9209;
    private static final long UNKNOWN = 0xFFFF_FFFFL;

    /** Where zero means unknown, infinite or not used rather than a measured nothing. */
    private static final Set<String> NEVER_ZERO = Set.of(
            "SubjectDistance",
            "DigitalZoomRatio",
            "FocalLengthIn35mmFilm",
            "FNumber",
            "FocalLength",
            "ExposureTimeInSeconds",
            "LensSpecification",
            "PhotographicSensitivity");

    private record Row(boolean firstDirectory, int tag, Attribute attribute, Set<String> defined) {}

    private static final List<Row> TABLE = table();

    private ExposureAttributes() {}

    static DataSet of(ExifTags first, ExifTags second) {
        DataSet.Builder attributes = DataSet.builder();
        for (Row row : TABLE) {
            put(attributes, row, row.firstDirectory ? first : second);
        }
        second.number(FLASH).ifPresent(flash -> putFlash(attributes, flash));
        return attributes.build();
    }

    private static void put(DataSet.Builder attributes, Row row, ExifTags tags) {
        switch (row.attribute.vr()) {
            case DS -> {
                List<String> decimals = decimals(row, tags.fractions(row.tag));
                if (row.attribute.multiplicity().allows(decimals.size()) && !decimals.isEmpty()) {
                    attributes.put(row.attribute, decimals.toArray(String[]::new));
                }
            }
            case US ->
                tags.number(row.tag)
                        .filter(number -> isDefined(row, number))
                        .ifPresent(number -> attributes.put(row.attribute, number));
            case IS ->
                tags.number(row.tag)
                        .filter(number -> number >= 0 && number != 65535 && number <= Integer.MAX_VALUE)
                        .filter(number -> number > 0 || !NEVER_ZERO.contains(row.attribute.keyword()))
                        .ifPresent(number -> attributes.put(row.attribute, Long.toString(number)));
            case UT ->
                tags.characters(row.tag)
                        .filter(text -> TextForm.problem(VR.UT, text).isEmpty())
                        .ifPresent(text -> attributes.put(row.attribute, text));
            default -> throw new IllegalStateException("the Exif table has " + row.attribute);
        }
    }

    private static boolean isDefined(Row row, long number) {
        return number >= 0 && (row.defined.isEmpty() ? number <= 0xFFFF : row.defined.contains(Long.toString(number)));
    }

    /** Exif Flash is bits: fired, return 1-2, mode 3-4, no flash function 5, red-eye 6 (PS3.3 C.8.12.11). */
    private static void putFlash(DataSet.Builder attributes, long flash) {
        if (flash < 0 || flash > 0x7F) {
            return;
        }
        attributes.put(Attributes.FLASH_FIRING_STATUS, flash & 1);
        attributes.put(Attributes.FLASH_RETURN_STATUS, flash >> 1 & 3);
        attributes.put(Attributes.FLASH_MODE, flash >> 3 & 3);
        attributes.put(Attributes.FLASH_FUNCTION_PRESENT, flash >> 5 & 1);
        attributes.put(Attributes.FLASH_RED_EYE_MODE, flash >> 6 & 1);
    }

    private static List<String> decimals(Row row, List<Rational> fractions) {
        List<String> decimals = new ArrayList<>();
        for (Rational fraction : fractions) {
            Optional<String> decimal = decimal(row, fraction);
            if (decimal.isEmpty()) {
                return List.of();
            }
            decimals.add(decimal.get());
        }
        return decimals;
    }

    /** A fraction over zero, or of all ones, means unknown or infinite. */
    private static Optional<String> decimal(Row row, Rational fraction) {
        long numerator = fraction.getNumerator();
        boolean zero = numerator == 0 && NEVER_ZERO.contains(row.attribute.keyword());
        boolean allOnes = numerator == UNKNOWN
                || (numerator == -1 && row.attribute.keyword().equals("BrightnessValue"));
        boolean unknown = fraction.getDenominator() == 0 || allOnes;
        if (unknown || zero) {
            return Optional.empty();
        }
        return Decimal.of(fraction);
    }

    private static List<Row> table() {
        try (InputStream in = ExposureAttributes.class.getResourceAsStream("exif.tsv")) {
            if (in == null) {
                throw new IllegalStateException("the table exif.tsv is missing from this program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> row(line.split("\t", -1)))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Row row(String[] columns) {
        Attribute attribute = Dictionary.standard()
                .find(columns[3])
                .orElseThrow(() -> new IllegalStateException("the Exif table names " + columns[3]))
                .attribute();
        Set<String> defined = columns[5].isEmpty() ? Set.of() : Set.of(columns[5].split(" "));
        return new Row(columns[0].equals("IFD0"), Integer.parseInt(columns[1], 16), attribute, defined);
    }
}
