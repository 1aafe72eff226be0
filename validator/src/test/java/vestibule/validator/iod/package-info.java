/** Tests of the tables and of the language of their conditions. */
@NullMarked
package vestibule.validator.iod;

import org.jspecify.annotations.NullMarked;
