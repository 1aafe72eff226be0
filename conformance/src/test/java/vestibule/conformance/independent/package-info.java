/** What the validator says of objects that nobody here made; start with {@link vestibule.conformance.independent.IndependentObjectsTest}. */
@NullMarked
package vestibule.conformance.independent;

import org.jspecify.annotations.NullMarked;
