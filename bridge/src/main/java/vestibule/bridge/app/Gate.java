package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import vestibule.bridge.object.PhotographicObject;
import vestibule.validator.Finding;
import vestibule.validator.ObjectReport;
import vestibule.validator.Validator;

/**
 * No object is written unchecked: an error of the validator stops it (PS3.3 A.32.4, PS3.5 6). Its coded data is not decoded once more, which
 * would take ten times as long as all else: it was decoded, or coded by us, a moment ago as the picture was made.
 */
final class Gate {

    private Gate() {}

    /** @throws Failure with every error, if there is one */
    static void check(Path photo, PhotographicObject object) throws Failure, IOException {
        ObjectReport report = Validator.standard().validate(object.dataSet(), object.transferSyntax());
        List<String> errors = report.errors().stream().map(Finding::line).toList();
        if (!errors.isEmpty()) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: the object would break the standard and is not written: %s"
                            .formatted(photo, String.join("; ", errors)));
        }
    }
}
