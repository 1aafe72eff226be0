package vestibule.dicom.io;

import java.util.List;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;

/**
 * Attributes that are US or SS, read from Implicit VR: Pixel Representation (0028,0103) of their data set, else of the nearest one around it,
 * decides (PS3.5 A.1 a). It may stand behind them, so they are settled when everything has been read.
 */
final class PixelRepresentation {

    private static final long SIGNED = 1;

    private PixelRepresentation() {}

    /** Whether the representation of that element hangs on Pixel Representation. */
    static boolean decides(Element element) {
        return element.vr() == VR.US
                && element.encoded() != null
                && element.encoded().vr().isEmpty()
                && Dictionary.standard()
                        .find(element.tag())
                        .filter(entry -> entry.representations().contains(VR.SS))
                        .isPresent();
    }

    /** The data set with such elements as SS where pixels are signed. */
    static DataSet settle(DataSet dataSet) {
        return settle(dataSet, 0);
    }

    private static DataSet settle(DataSet dataSet, long inherited) {
        long representation = dataSet.integer(Attributes.PIXEL_REPRESENTATION).orElse(inherited);
        DataSet.Builder settled = DataSet.builder();
        for (Element element : dataSet) {
            settled.put(settle(element, representation));
        }
        return settled.build();
    }

    private static Element settle(Element element, long representation) {
        if (element.value() instanceof Value.Items items) {
            List<DataSet> settled = items.all().stream()
                    .map(item -> settle(item, representation))
                    .toList();
            return new Element(element.tag(), element.vr(), new Value.Items(settled), element.encoded());
        }
        if (representation == SIGNED && decides(element) && element.value() instanceof Value.Integers numbers) {
            List<Long> signed = numbers.all().stream()
                    .map(number -> (long) number.shortValue())
                    .toList();
            return new Element(element.tag(), VR.SS, new Value.Integers(signed), element.encoded());
        }
        return element;
    }
}
