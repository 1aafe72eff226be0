/** The job from a photograph to the archive, judged by others. Start from {@link vestibule.conformance.job.WrappedPhotographsTest}. */
@NullMarked
package vestibule.conformance.job;

import org.jspecify.annotations.NullMarked;
