package vestibule.validator.rules;

import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import vestibule.validator.Check;
import vestibule.validator.Rule;
import vestibule.validator.iod.ModuleCheck;

/** Every check there is. */
public final class AllChecks {

    private static final List<Check> CHECKS = List.of(
            new PreambleCheck(),
            new MetaInformationCheck(),
            new EncodingCheck(),
            new RepresentationCheck(),
            new IdentifierCheck(),
            new TextCheck(),
            new CharacterSetCheck(),
            new PrivateCheck(),
            new ModuleCheck(),
            new ImageDescriptionCheck(),
            new OrientationCheck(),
            new CodeCheck(),
            new SideCheck(),
            new OneSideCheck(),
            new DirectionCheck(),
            new ViewCheck(),
            new MomentCheck(),
            new SenseCheck(),
            new AttributePrivacyCheck(),
            new PixelDataCheck(),
            new ProfileCheck(),
            new StreamCheck());

    private AllChecks() {}

    /** The checks, in the order they are run. */
    public static List<Check> checks() {
        return CHECKS;
    }

    /** Their rules by id. */
    public static List<Rule> rules() {
        return Stream.concat(CHECKS.stream().flatMap(check -> check.rules().stream()), BatchCheck.all().stream())
                .sorted(Comparator.comparing(Rule::id))
                .toList();
    }
}
