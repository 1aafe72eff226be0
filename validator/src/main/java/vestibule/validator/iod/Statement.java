package vestibule.validator.iod;

import java.util.List;
import java.util.Optional;
import vestibule.validator.Citation;

/**
 * What one row of a module table says of an attribute.
 *
 * @param module the module; the same attribute may stand in several
 * @param type whether it must be there
 * @param condition for types 1C and 2C
 * @param words the condition in words
 * @param absentOtherwise whether it must not be there when the condition is false
 * @param items how many items a sequence may have: 1, 0-1, 1-n, 0-n, or nothing
 * @param closedList whether the values are enumerated; else they are defined terms and others may be used
 * @param values the value list; empty where there is none
 * @param valuesClause where the value list stands
 * @param clause where the row stands
 */
record Statement(
        Module module,
        Requirement type,
        Optional<Condition> condition,
        String words,
        boolean absentOtherwise,
        String items,
        boolean closedList,
        List<String> values,
        Citation valuesClause,
        Citation clause) {

    Statement {
        values = List.copyOf(values);
    }
}
