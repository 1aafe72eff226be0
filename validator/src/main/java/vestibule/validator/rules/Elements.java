package vestibule.validator.rules;

import java.io.IOException;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Dictionary;
import vestibule.validator.Location;
import vestibule.validator.Subject;

/** Visits every element of an object: meta information, data set, and the items in them. */
final class Elements {

    /** What is done with an element and the data set that holds it. */
    interface Visitor {
        void visit(Element element, DataSet holder, Location where) throws IOException;
    }

    private Elements() {}

    static void visit(Subject subject, Visitor visitor) throws IOException {
        if (subject.file().isPresent()) {
            visit(subject.file().get().meta(), Location.OBJECT, visitor);
        }
        visit(subject.dataSet(), Location.OBJECT, visitor);
    }

    static void visit(DataSet dataSet, Location holder, Visitor visitor) throws IOException {
        for (Element element : dataSet) {
            visitor.visit(element, dataSet, holder);
            if (element.value() instanceof Value.Items items) {
                Location sequence = items.all().isEmpty() ? holder : holder.at(element.tag());
                for (int i = 0; i < items.all().size(); i++) {
                    visit(items.all().get(i), sequence.item(i + 1), visitor);
                }
            }
        }
    }

    /** The keyword of an attribute, else its tag. */
    static String name(Tag tag) {
        return Dictionary.standard()
                .find(tag)
                .map(entry -> entry.attribute().keyword())
                .orElseGet(tag::toString);
    }

    /** The place of an element, with its byte where it was read from a file. */
    static Location place(Location holder, Element element) {
        Location place = holder.at(element.tag());
        return element.encoded() == null
                ? place
                : place.atByte(element.encoded().offset());
    }
}
