/** The forms a report can take, all from one model. Start from {@link vestibule.validator.report.ReportFormat}. */
@NullMarked
package vestibule.validator.report;

import org.jspecify.annotations.NullMarked;
