/** What a camera does to a picture: JPEG, Exif, thumbnail, profile. Start from {@code CameraFile}. */
@NullMarked
package vestibule.samples.camera;

import org.jspecify.annotations.NullMarked;
