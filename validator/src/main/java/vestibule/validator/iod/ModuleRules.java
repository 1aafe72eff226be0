package vestibule.validator.iod;

import java.util.List;
import vestibule.validator.Rule;
import vestibule.validator.Severity;

/** The rules that the module tables drive: each stands for every row of its kind, and a finding cites the row. */
final class ModuleRules {

    static final Rule TYPE_1_MISSING = Rule.of(
            "MOD-001",
            Severity.ERROR,
            "PS3.5 7.4.1",
            "An attribute of type 1 is there with a value.",
            "{attribute}, type 1 in the {module} module, is not there",
            "Add it with a value; if nobody knows one, the object cannot be made.");
    static final Rule TYPE_1_EMPTY = Rule.of(
            "MOD-002",
            Severity.ERROR,
            "PS3.5 7.4.1",
            "An attribute of type 1 has a value.",
            "{attribute}, type 1 in the {module} module, has no value",
            "Give it a value; if nobody knows one, the object cannot be made.");
    static final Rule TYPE_1C_MISSING = Rule.of(
            "MOD-003",
            Severity.ERROR,
            "PS3.5 7.4.2",
            "An attribute of type 1C is there with a value when its condition holds.",
            "{attribute}, type 1C in the {module} module, is not there, although its condition holds: {condition}",
            "Add it with a value, or change what makes its condition hold.");
    static final Rule TYPE_1C_EMPTY = Rule.of(
            "MOD-004",
            Severity.ERROR,
            "PS3.5 7.4.2",
            "An attribute of type 1C has a value when its condition holds, and is not there when it does not.",
            "{attribute}, type 1C in the {module} module ({condition}), has no value",
            "Give it a value, or leave it out if its condition does not hold.");
    static final Rule TYPE_2_MISSING = Rule.of(
            "MOD-005",
            Severity.ERROR,
            "PS3.5 7.4.3",
            "An attribute of type 2 is there, without a value if none is known.",
            "{attribute}, type 2 in the {module} module, is not there",
            "Add it, empty if no value is known.");
    static final Rule TYPE_2C_MISSING = Rule.of(
            "MOD-006",
            Severity.ERROR,
            "PS3.5 7.4.4",
            "An attribute of type 2C is there when its condition holds.",
            "{attribute}, type 2C in the {module} module, is not there, although its condition holds: {condition}",
            "Add it, empty if no value is known.");
    static final Rule MUST_BE_ABSENT = Rule.of(
            "MOD-007",
            Severity.ERROR,
            "PS3.5 7.4.2",
            "A conditional attribute is not there when its condition does not hold, unless the table allows it.",
            "{attribute}, type {type} in the {module} module, is there, although its condition does not hold: {condition}",
            "Leave it out, or change what its condition depends on.");
    static final Rule ENUMERATED = Rule.of(
            "MOD-008",
            Severity.ERROR,
            "PS3.5 6.3",
            "A value of an attribute with enumerated values is one of them.",
            "{attribute} is \"{value}\", and the only values are {values}",
            "Use one of the values of the list.");
    static final Rule DEFINED_TERM = Rule.of(
            "MOD-009",
            Severity.NOTE,
            "PS3.5 6.3",
            "A value of an attribute with defined terms is one of them where one fits.",
            "{attribute} is \"{value}\", which is not among the defined terms {values}",
            "Use a defined term if one fits; receivers may not know others.");
    static final Rule ITEM_COUNT = Rule.of(
            "MOD-010",
            Severity.ERROR,
            "PS3.5 7.5",
            "A sequence has as many items as its table allows.",
            "{attribute} has {count} items, and its table allows {allowed}",
            "Keep the item that is meant, and take the others out.");
    static final Rule UNDECIDED = Rule.of(
            "MOD-011",
            Severity.NOTE,
            "PS3.5 7.4.2",
            "An attribute of type 1C or 2C is there when its condition holds.",
            "not checked, for the object does not say whether these conditions hold, what is needed {attributes}",
            "Nothing need be done if the conditions do not hold.");
    static final Rule EXTENDED = Rule.of(
            "MOD-012",
            Severity.NOTE,
            "PS3.3 A.32.4",
            "Attributes beyond the modules of the object make it a standard extended one.",
            "{attribute} is in none of the modules of this object; not checked beyond its encoding",
            "Nothing need be done; name it in the conformance statement of whatever adds it.");
    static final Rule ONLY_SO_FAR = Rule.of(
            "MOD-014",
            Severity.NOTE,
            "PS3.3 A.32.4",
            "The modules of VL Photographic Images are checked; of other objects only what all have in common.",
            "this is no VL Photographic Image but {class}: checked are its file, {checked}, and nothing beyond",
            "Check it with a tool for its kind of object.");

    static final Rule NO_ITEMS = Rule.of(
            "MOD-015",
            Severity.WARNING,
            "PS3.5 7.4.5",
            "A sequence that need not be there has items if it is there.",
            "{attribute} is there without items",
            "Leave it out; it is allowed as it is, but other checkers and some receivers refuse it.");

    private ModuleRules() {}

    static List<Rule> all() {
        return List.of(
                TYPE_1_MISSING,
                TYPE_1_EMPTY,
                TYPE_1C_MISSING,
                TYPE_1C_EMPTY,
                TYPE_2_MISSING,
                TYPE_2C_MISSING,
                MUST_BE_ABSENT,
                ENUMERATED,
                DEFINED_TERM,
                ITEM_COUNT,
                UNDECIDED,
                EXTENDED,
                ONLY_SO_FAR,
                NO_ITEMS);
    }
}
