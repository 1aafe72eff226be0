/** Tests of the validator from outside: objects with one known defect each, and the tables held against an independent checker. */
@NullMarked
package vestibule.validator;

import org.jspecify.annotations.NullMarked;
