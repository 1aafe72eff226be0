/**
 * What a data set is made of: tags, value representations, values, items (PS3.5 6 and 7). Start from
 * {@link vestibule.dicom.data.DataSet}; everything here is immutable and knows nothing of bytes on the wire.
 */
@NullMarked
package vestibule.dicom.data;

import org.jspecify.annotations.NullMarked;
