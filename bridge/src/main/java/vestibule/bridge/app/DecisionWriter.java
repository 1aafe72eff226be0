package vestibule.bridge.app;

import java.util.Optional;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;
import vestibule.bridge.object.Order;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.Correction;
import vestibule.dicom.data.Code;

/** Writes a decision; {@link DecisionText#read} reads it again. Keys stand in a fixed order, and what is not known is left out. */
final class DecisionWriter {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private DecisionWriter() {}

    static String write(DecisionText decision) {
        ObjectNode all = JSON.createObjectNode();
        all.put("version", DecisionText.VERSION);
        decision.patient().ifPresent(patient -> put(all.putObject("patient"), patient));
        decision.shown().ifPresent(shown -> put(all.putObject("shown"), shown));
        put(all.putObject("visit"), decision.visit());
        if (!decision.clock().isZero()) {
            all.put("clockSeconds", Math.toIntExact(decision.clock().toSeconds()));
        }
        if (decision.edition() != 0) {
            all.put("edition", decision.edition());
        }
        ArrayNode grounds = all.putArray("grounds");
        decision.grounds()
                .forEach(ground -> grounds.addObject()
                        .put("about", ground.about())
                        .put("kind", ground.kind())
                        .put("at", ground.at().toString())
                        .put("origin", ground.origin()));
        return JSON.writeValueAsString(all);
    }

    private static void put(ObjectNode object, Patient patient) {
        object.put("id", patient.id());
        put(object, "issuer", patient.issuer());
        object.put("name", patient.name().toString());
        put(object, "birthDate", patient.birthDate());
        put(object, "sex", patient.sex());
        if (!patient.otherIds().isEmpty()) {
            ArrayNode others = object.putArray("otherIds");
            for (Patient.OtherId other : patient.otherIds()) {
                put(others.addObject().put("id", other.id()), "issuer", other.issuer());
            }
        }
    }

    private static void put(ObjectNode object, DecisionText.Shown shown) {
        object.put("view", shown.view());
        put(object, "capture", shown.capture().map(Capture::word));
        put(object, "correctBy", shown.correctBy().map(Correction::word));
        put(object, "orientation", shown.orientation());
        put(object, "like", shown.like());
        if (!shown.teeth().isEmpty()) {
            ArrayNode teeth = object.putArray("teeth");
            shown.teeth().forEach(teeth::add);
        }
    }

    private static void put(ObjectNode object, Visit visit) {
        put(object, "study", visit.study());
        put(object, "accession", visit.accession());
        put(object, "studyId", visit.studyId());
        put(object, "studyDate", visit.studyDate());
        put(object, "studyTime", visit.studyTime());
        put(object, "studyDescription", visit.studyDescription());
        put(object, "referring", visit.referring());
        put(object, "operator", visit.operator());
        put(object, "series", visit.series());
        visit.seriesNumber().ifPresent(number -> object.put("seriesNumber", number));
        put(object, "seriesDescription", visit.seriesDescription());
        put(object, "protocol", visit.protocol());
        put(object, "sitting", visit.sitting());
        put(object, "stage", visit.stage());
        visit.order().ifPresent(order -> put(object.putObject("order"), order));
        visit.instanceNumber().ifPresent(number -> object.put("instanceNumber", number));
    }

    private static void put(ObjectNode object, Order order) {
        put(object, "study", order.study());
        put(object, "accession", order.accession());
        put(object, "studyDate", order.studyDate());
        put(object, "studyTime", order.studyTime());
        put(object, "referring", order.referring());
        put(object, "procedureId", order.procedureId());
        put(object, "procedure", order.procedure());
        order.procedureCode().ifPresent(code -> put(object.putObject("procedureCode"), code));
        put(object, "stepId", order.stepId());
        put(object, "step", order.step());
        if (!order.protocols().isEmpty()) {
            ArrayNode protocols = object.putArray("protocols");
            order.protocols().forEach(code -> put(protocols.addObject(), code));
        }
        put(object, "admission", order.admission());
    }

    private static void put(ObjectNode object, Code code) {
        object.put("value", code.value()).put("scheme", code.scheme()).put("meaning", code.meaning());
    }

    private static void put(ObjectNode object, String key, Optional<?> value) {
        value.ifPresent(known -> object.put(key, known.toString()));
    }
}
