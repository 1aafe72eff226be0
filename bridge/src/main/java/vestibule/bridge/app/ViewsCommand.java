package vestibule.bridge.app;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.cli.Options;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.Frame;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.Code;

/** Prints the catalogue of views. */
final class ViewsCommand implements Command {

    @Override
    public String name() {
        return "views";
    }

    @Override
    public String syntax() {
        return "[--json] [--config FILE]";
    }

    @Override
    public String summary() {
        return "the views a photograph may show, and how each is coded";
    }

    @Override
    public Options options() {
        return CatalogueAnswer.options();
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure, IOException {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "views takes no words, found %s.".formatted(arguments.words()));
        }
        Settings settings = SettingsFile.of(arguments);
        CodingProfile profile = settings.practice().coding();
        List<View> views = List.copyOf(ViewCatalogue.of(settings.views()).views());
        new CatalogueAnswer(
                        Map.of(
                                "profile",
                                profile.word(),
                                "views",
                                views.stream().map(ViewsCommand::described).toList()),
                        views.stream().map(view -> row(view, profile)).toList())
                .print(arguments, terminal);
        return Exit.FINE;
    }

    private static Map<String, String> row(View view, CodingProfile profile) {
        View.Coding coding = view.coding(profile);
        Map<String, String> row = new LinkedHashMap<>();
        row.put("view", view.id());
        row.put("taken", taken(view));
        row.put("frame", view.frame().word());
        row.put("rows\\c", direction(view));
        row.put("side", coding.laterality().orElse("-"));
        row.put("region", coding.region().map(Code::meaning).orElse("-"));
        row.put("label", view.label());
        return row;
    }

    private static String taken(View view) {
        return switch (view.mirror()) {
            case NEVER -> "direct";
            case ALWAYS -> "mirror";
            case EITHER -> "either";
        };
    }

    private static String direction(View view) {
        return switch (view.mode()) {
            case FIXED -> view.orientation().orElse("-");
            case INHERITED -> "(like)";
            case NONE -> "-";
        };
    }

    private static Map<String, Object> described(View view) {
        Map<String, Object> described = new LinkedHashMap<>();
        described.put("id", view.id());
        described.put("name", view.name());
        described.put("label", view.label());
        described.put("group", view.group());
        described.put("taken", taken(view));
        view.orientation().ifPresent(value -> described.put("patientOrientation", List.of(value.split("\\\\"))));
        view.look().ifPresent(look -> described.put("looksTowards", look));
        described.put("frames", view.frames().stream().map(Frame::word).toList());
        described.put("directionSharedWith", view.directions());
        view.recognizable().ifPresent(flag -> described.put("recognizable", flag));
        described.put("recordedFromFront", recorded(view.front()));
        described.put("recordedFromBehind", recorded(view.behind()));
        described.put("dental", coded(view.dental()));
        described.put("ortho", coded(view.ortho()));
        described.put("teethToOffer", view.teethToOffer());
        return described;
    }

    private static Map<String, Object> recorded(View.Recorded recorded) {
        Map<String, Object> described = new LinkedHashMap<>();
        recorded.orientation().ifPresent(value -> described.put("patientOrientation", List.of(value.split("\\\\"))));
        described.put("putRightBy", TurnCommand.word(recorded.putRight()));
        return described;
    }

    private static Map<String, Object> coded(View.Coding coding) {
        Map<String, Object> described = new LinkedHashMap<>();
        coding.region().ifPresent(code -> described.put("anatomicRegion", code));
        coding.modifier().ifPresent(code -> described.put("anatomicRegionModifier", code));
        coding.laterality().ifPresent(side -> described.put("imageLaterality", side));
        described.put("primaryAnatomicStructures", coding.structures());
        return described;
    }
}
