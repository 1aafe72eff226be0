package vestibule.bridge.app;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.cli.Options;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.Code;

/** Prints the catalogue of views. */
final class ViewsCommand implements Command {

    private static final JsonMapper JSON =
            JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

    @Override
    public String name() {
        return "views";
    }

    @Override
    public String syntax() {
        return "[--json]";
    }

    @Override
    public String summary() {
        return "the views a photograph may show, and how each is coded";
    }

    @Override
    public Options options() {
        return Given.all(Given.flag("json", "print JSON instead of a table"));
    }

    @Override
    public Exit run(Arguments arguments, Terminal terminal) throws Failure {
        if (!arguments.words().isEmpty()) {
            throw new Failure(Exit.USAGE, "views takes no words, found %s.".formatted(arguments.words()));
        }
        List<View> views = List.copyOf(ViewCatalogue.standard().views());
        if (arguments.has("json")) {
            terminal.out()
                    .println(JSON.writeValueAsString(Map.of(
                            "views", views.stream().map(ViewsCommand::described).toList())));
            return Exit.FINE;
        }
        terminal.out().printf("%-34s %-8s %-6s %-5s %-40s %s%n", "VIEW", "TAKEN", "ROWS\\C", "SIDE", "REGION", "NAME");
        for (View view : views) {
            View.Coding coding = view.coding(CodingProfile.DENTAL);
            terminal.out()
                    .printf(
                            "%-34s %-8s %-6s %-5s %-40s %s%n",
                            view.id(),
                            taken(view),
                            direction(view),
                            coding.laterality().orElse("-"),
                            coding.region().map(Code::meaning).orElse("-"),
                            view.name());
        }
        return Exit.FINE;
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
        described.put("directionSharedWith", view.directions());
        described.put("recognizable", view.recognizable());
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
        described.put("putRightBy", recorded.transform());
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
