package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import vestibule.bridge.object.PhotographicObject;
import vestibule.bridge.photo.PictureMaker;
import vestibule.bridge.photo.Scratch;
import vestibule.bridge.settings.Practice;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;

/** Makes objects by {@link Wrapping}, lets none past {@link Gate}, and writes all of a photograph or none. */
final class ObjectMaking implements Making {

    private final Practice practice;
    private final ViewRules rules;
    private final Clock clock;
    private final Path scratchParent;

    /**
     * @param practice what every object says of the practice, and whether the raw picture is kept beside the corrected one
     * @param rules how the practice photographs its views
     * @param clock for what lies in the future
     * @param scratchParent where pictures in the making may lie for a moment
     */
    ObjectMaking(Practice practice, ViewRules rules, Clock clock, Path scratchParent) {
        this.practice = practice;
        this.rules = rules;
        this.clock = clock;
        this.scratchParent = scratchParent;
    }

    @Override
    public List<Made> make(Path original, String decision, Path into) throws Failure, IOException {
        Wrapping.Decisions decisions = DecisionText.read(decision).decisions(rules);
        Wrapping.Raw keepRaw = practice.pictures().keepRaw() ? Wrapping.Raw.WHERE_IT_SAYS_MORE : Wrapping.Raw.NEVER;
        try (Scratch scratch = Scratch.in(scratchParent)) {
            Wrapping wrapping = new Wrapping(new PictureMaker(scratch), clock, practice, practice.pictures());
            Wrapping.Wrapped wrapped = wrapping.wrap(original, decisions, keepRaw);
            List<PhotographicObject> objects = new ArrayList<>();
            wrapped.raw().ifPresent(objects::add);
            objects.add(wrapped.object());
            for (PhotographicObject object : objects) {
                Gate.check(original, object);
            }
            return write(objects, into);
        }
    }

    private static List<Made> write(List<PhotographicObject> objects, Path into) throws IOException {
        List<Made> made = new ArrayList<>();
        try {
            for (PhotographicObject object : objects) {
                Path file = into.resolve(object.sopInstance().value() + ".dcm");
                made.add(new Made(
                        file,
                        Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value(),
                        object.sopInstance().value()));
                DicomFile.write(file, object.dataSet(), object.transferSyntax());
            }
            return made;
        } catch (IOException e) {
            for (Made one : made) {
                Files.deleteIfExists(one.file());
            }
            throw e;
        }
    }
}
