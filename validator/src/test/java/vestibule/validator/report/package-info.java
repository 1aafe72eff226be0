/** Tests of the forms of a report. */
@NullMarked
package vestibule.validator.report;

import org.jspecify.annotations.NullMarked;
