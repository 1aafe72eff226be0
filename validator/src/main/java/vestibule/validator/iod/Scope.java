package vestibule.validator.iod;

import org.jspecify.annotations.Nullable;
import vestibule.dicom.data.DataSet;
import vestibule.validator.Subject;

/**
 * Where a condition is asked: a data set, the one that holds it, and the object as a whole.
 *
 * @param dataSet the outermost data set or an item
 * @param outer the scope of the data set whose sequence holds the item; null for the outermost
 * @param subject the object
 */
record Scope(DataSet dataSet, @Nullable Scope outer, Subject subject) {

    static Scope of(Subject subject) {
        return new Scope(subject.dataSet(), null, subject);
    }

    Scope item(DataSet item) {
        return new Scope(item, this, subject);
    }

    Scope root() {
        Scope scope = this;
        while (scope.outer != null) {
            scope = scope.outer;
        }
        return scope;
    }
}
