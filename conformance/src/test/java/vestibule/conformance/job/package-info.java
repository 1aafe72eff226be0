/** The main job as a whole, from the command's words to what an archive has. */
@NullMarked
package vestibule.conformance.job;

import org.jspecify.annotations.NullMarked;
