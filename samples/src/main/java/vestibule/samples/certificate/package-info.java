/**
 * Certificates of the invented practice, good ones and every usual mistake, made by {@code openssl} when they are needed; none is kept. Start
 * from {@link vestibule.samples.certificate.Authority}.
 */
@NullMarked
package vestibule.samples.certificate;

import org.jspecify.annotations.NullMarked;
