package vestibule.bridge.settings;

import java.time.ZoneId;
import java.util.Optional;
import vestibule.bridge.view.CodingProfile;

/**
 * What a practice says of itself once, for every object.
 *
 * @param institution Institution Name (0008,0080)
 * @param department Institutional Department Name (0008,1040)
 * @param station Station Name (0008,1010), the room or the computer
 * @param issuer Issuer of Patient ID (0010,0021) where none is given with an id
 * @param zone the zone that camera clocks run in when the camera does not say
 * @param coding which region codes and sides are used
 * @param pictures what is done with pictures
 */
public record Practice(
        Optional<String> institution,
        Optional<String> department,
        Optional<String> station,
        Optional<String> issuer,
        Optional<ZoneId> zone,
        CodingProfile coding,
        Pictures pictures) {

    /** A practice that said nothing. */
    public static final Practice UNSAID = new Practice(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            CodingProfile.DENTAL,
            Pictures.USUAL);
}
