/** The catalogue of views and sets against facts that nobody here computed with the catalogue's own code. */
@NullMarked
package vestibule.conformance.catalogue;

import org.jspecify.annotations.NullMarked;
