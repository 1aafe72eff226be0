package vestibule.conformance.catalogue;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.PhotoSet;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.SetCatalogue;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.conformance.Corpus;
import vestibule.dicom.data.Code;

@DisplayName("The catalogue against the facts of the trade, the geometry worked out anew")
class ViewsAgainstFactsTest {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final ViewCatalogue CATALOGUE = ViewCatalogue.standard();

    private static JsonNode facts(String file) throws IOException {
        Optional<Path> path =
                Corpus.shared().map(shared -> shared.resolve(file)).filter(Files::isRegularFile);
        assumeTrue(path.isPresent(), "the facts " + file + " are not here");
        return JSON.readTree(Files.readString(path.orElseThrow()));
    }

    /** A camera, in patient coordinates: where it looks, and where its right and its upper edge point. */
    private record Camera(Space looks, Space right, Space up) {

        /** Looks along a direction, upright to the patient: its upper edge as near to the head, or to {@code above}, as can be. */
        static Camera looking(Space along, Space above) {
            Space up = above.minus(along.times(above.dot(along))).unit();
            return new Camera(along, along.cross(up), up);
        }

        /** The same rolled by half a turn, as for an operator behind the patient's head (F-10 to F-13). */
        Camera upsideDown() {
            return new Camera(looks, right.times(-1), up.times(-1));
        }

        /** What it sees in a mirror that turns its look into another: everything is reflected at the mirror. */
        Camera inMirrorTowards(Space other) {
            Space normal = other.minus(looks).unit();
            return new Camera(looks.reflected(normal), right.reflected(normal), up.reflected(normal));
        }

        /** Rows left to right, columns top to bottom. */
        Picture picture() {
            return new Picture(right, up.times(-1));
        }
    }

    /** A picture: where its rows and its columns run in the patient. */
    private record Picture(Space rows, Space columns) {

        Picture after(vestibule.dicom.jpeg.Turn turn) {
            return switch (turn) {
                case NONE -> this;
                case FLIP_HORIZONTAL -> new Picture(rows.times(-1), columns);
                case FLIP_VERTICAL -> new Picture(rows, columns.times(-1));
                case ROTATE_180 -> new Picture(rows.times(-1), columns.times(-1));
                case ROTATE_90 -> new Picture(columns.times(-1), rows);
                case ROTATE_270 -> new Picture(columns, rows.times(-1));
                case TRANSPOSE -> new Picture(columns, rows);
                case TRANSVERSE -> new Picture(columns.times(-1), rows.times(-1));
            };
        }

        /** Whether it shows things as they are for somebody who looks that way (F-02). */
        boolean unmirrored(Space look) {
            return rows.cross(columns).dot(look) > 0;
        }

        /** Whether letters say what the vectors say: the main direction first or second, and none that is not there. */
        boolean reads(String letters) {
            String[] parts = letters.split("\\\\");
            return parts.length == 2 && reads(rows, parts[0]) && reads(columns, parts[1]);
        }

        private static boolean reads(Space vector, String letters) {
            return (vector.letters().containsAll(set(letters)) && letters.indexOf(vector.main()) >= 0)
                    || vector.letters().equals(set(letters));
        }

        private static Set<Character> set(String letters) {
            Set<Character> set = new HashSet<>();
            letters.chars().forEach(letter -> set.add((char) letter));
            return set;
        }
    }

    /** A direction; left, posterior and head are positive (PS3.3 C.7.6.1.1.1). */
    private record Space(double x, double y, double z) {

        static final Space HEAD = new Space(0, 0, 1);
        static final Space POSTERIOR = new Space(0, 1, 0);
        static final Space ANTERIOR = new Space(0, -1, 0);

        static Space of(String letters) {
            Space sum = new Space(0, 0, 0);
            double weight = 1;
            for (int i = 0; i < letters.length(); i++) {
                Space axis = switch (letters.charAt(i)) {
                    case 'L' -> new Space(1, 0, 0);
                    case 'R' -> new Space(-1, 0, 0);
                    case 'P' -> POSTERIOR;
                    case 'A' -> ANTERIOR;
                    case 'H' -> HEAD;
                    case 'F' -> HEAD.times(-1);
                    default -> throw new IllegalArgumentException(letters);
                };
                sum = sum.plus(axis.times(weight));
                weight *= 0.7;
            }
            return sum.unit();
        }

        Space plus(Space other) {
            return new Space(x + other.x, y + other.y, z + other.z);
        }

        Space minus(Space other) {
            return plus(other.times(-1));
        }

        Space times(double factor) {
            return new Space(x * factor, y * factor, z * factor);
        }

        double dot(Space other) {
            return x * other.x + y * other.y + z * other.z;
        }

        Space cross(Space other) {
            return new Space(y * other.z - z * other.y, z * other.x - x * other.z, x * other.y - y * other.x);
        }

        Space unit() {
            return times(1 / Math.sqrt(dot(this)));
        }

        /** At a plane mirror with that normal. */
        Space reflected(Space normal) {
            return minus(normal.times(2 * dot(normal)));
        }

        /** The letters of every axis it has a clear part in. */
        Set<Character> letters() {
            Set<Character> letters = new HashSet<>();
            add(letters, x, 'L', 'R');
            add(letters, y, 'P', 'A');
            add(letters, z, 'H', 'F');
            return letters;
        }

        private static void add(Set<Character> letters, double part, char positive, char negative) {
            if (Math.abs(part) > 0.25) {
                letters.add(part > 0 ? positive : negative);
            }
        }

        char main() {
            double most = Math.max(Math.abs(x), Math.max(Math.abs(y), Math.abs(z))) - 0.2;
            if (Math.abs(x) >= most) {
                return x > 0 ? 'L' : 'R';
            }
            if (Math.abs(y) >= most) {
                return y > 0 ? 'P' : 'A';
            }
            return z > 0 ? 'H' : 'F';
        }
    }

    /** Which way is up in the finished picture of a view: the head, except where one looks up or down at an arch. */
    private static Space above(String id, Space look) {
        boolean innerFront = id.equals("palatal-maxillary-anterior") || id.equals("lingual-mandibular-anterior");
        if (Math.abs(look.dot(Space.HEAD)) < 0.95 && !innerFront) {
            return Space.HEAD;
        }
        // Upper incisors at the top, lower incisors at the bottom (F-05); front inner sextants as their arch (D-4).
        return id.contains("maxillary") ? Space.ANTERIOR : Space.POSTERIOR;
    }

    @TestFactory
    @DisplayName("F-01 to F-14: orientation of every view, in every set-up, from look, up and mirror")
    Stream<DynamicTest> orientation() throws IOException {
        return StreamSupport.stream(facts("trade/views.json").get("views").spliterator(), false)
                .filter(fact -> !fact.get("orientation_mode").asString().equals("none"))
                .map(fact -> dynamicTest(fact.get("id").asString(), () -> {
                    String id = fact.get("id").asString();
                    View view = CATALOGUE.view(id).orElseThrow();
                    Space look = Space.of(fact.at("/look_direction/value").asString());
                    String finished =
                            fact.at("/final/patient_orientation/value").asString();
                    assertThat(view.orientation()).contains(finished);
                    assertThat(Camera.looking(look, above(id, look)).picture().reads(finished))
                            .as("%s seen by somebody who looks %s", finished, look)
                            .isTrue();
                    if (view.mirror() == View.Mirror.ALWAYS) {
                        byMirror(view, look, finished);
                    } else if (!id.startsWith("cast-occlusal")) {
                        assertThat(Camera.looking(look, Space.HEAD).picture().reads(orientation(view.front())))
                                .isTrue();
                        assertThat(Camera.looking(look, Space.HEAD)
                                        .upsideDown()
                                        .picture()
                                        .reads(orientation(view.behind())))
                                .isTrue();
                    }
                }));
    }

    /** The camera looks to the back of the head, upright or upside down, and the mirror turns its look into that of the view. */
    private static void byMirror(View view, Space look, String finished) throws ContradictionException {
        Camera front = Camera.looking(Space.POSTERIOR, Space.HEAD);
        Map<Capture, Picture> recorded = Map.of(
                Capture.MIRROR_FRONT, front.inMirrorTowards(look).picture(),
                Capture.MIRROR_BEHIND, front.upsideDown().inMirrorTowards(look).picture());
        for (Map.Entry<Capture, Picture> entry : recorded.entrySet()) {
            Capture capture = entry.getKey();
            Picture raw = entry.getValue();
            View.Recorded fact = capture == Capture.MIRROR_FRONT ? view.front() : view.behind();
            assertThat(raw.unmirrored(look)).as("a mirror reverses").isFalse();
            assertThat(raw.reads(orientation(fact)))
                    .as("%s %s records %s, reckoned %s", view.id(), capture, orientation(fact), raw)
                    .isTrue();
            for (CodingProfile profile : CodingProfile.values()) {
                Placement placement = Placement.of(view, Optional.of(capture), Optional.empty(), List.of(), profile);
                Picture put = raw.after(placement.correction().orElseThrow().turn());
                assertThat(placement.orientation()).contains(finished);
                assertThat(put.reads(finished))
                        .as("%s %s %s", view.id(), capture, profile)
                        .isTrue();
                assertThat(put.unmirrored(look))
                        .as("F-03 %s %s", view.id(), capture)
                        .isTrue();
            }
        }
    }

    private static String orientation(View.Recorded recorded) {
        return recorded.orientation().orElseThrow();
    }

    @Test
    @DisplayName("F-12, F-13, F-14: the arches by mirror, and the half turn that looks finished")
    void arches() {
        Camera front = Camera.looking(Space.POSTERIOR, Space.HEAD);
        Picture upper = front.inMirrorTowards(Space.HEAD).picture();
        Picture lower = front.inMirrorTowards(Space.HEAD.times(-1)).picture();
        assertThat(upper.reads("L\\A")).as("F-12").isTrue();
        assertThat(lower.reads("L\\P")).as("F-13").isTrue();
        Picture trap = upper.after(vestibule.dicom.jpeg.Turn.ROTATE_180);
        assertThat(trap.reads("R\\P"))
                .as("F-14: incisors at the top, as expected")
                .isTrue();
        assertThat(trap.unmirrored(Space.HEAD))
                .as("F-14: and left and right exchanged")
                .isFalse();
        assertThat(lower.after(vestibule.dicom.jpeg.Turn.ROTATE_180).reads("R\\A"))
                .as("F-14")
                .isTrue();
        assertThat(upper.after(vestibule.dicom.jpeg.Turn.FLIP_VERTICAL).unmirrored(Space.HEAD))
                .isTrue();
    }

    @TestFactory
    @DisplayName("region, side and structure of every view, capture and coding profile")
    Stream<DynamicTest> coding() throws IOException {
        JsonNode root = facts("trade/views.json");
        Map<String, Code> codes = new HashMap<>();
        root.get("codes")
                .forEach(code -> codes.put(
                        code.get("id").asString(),
                        new Code(
                                code.get("value").asString(),
                                code.get("scheme").asString(),
                                code.get("meaning").asString())));
        return StreamSupport.stream(root.get("views").spliterator(), false)
                .flatMap(fact -> Stream.of(CodingProfile.values())
                        .map(profile -> dynamicTest(fact.get("id").asString() + " " + profile.word(), () -> {
                            View view =
                                    CATALOGUE.view(fact.get("id").asString()).orElseThrow();
                            for (Capture capture : captures(view)) {
                                compare(view, capture, profile, fact, codes);
                            }
                        })));
    }

    private static List<Capture> captures(View view) {
        return switch (view.mirror()) {
            case NEVER -> List.of(Capture.DIRECT);
            case ALWAYS -> List.of(Capture.MIRROR_FRONT, Capture.MIRROR_BEHIND, Capture.MIRROR_FLIPPED);
            case EITHER -> List.of(Capture.DIRECT);
        };
    }

    private static void compare(
            View view, Capture capture, CodingProfile profile, JsonNode fact, Map<String, Code> codes)
            throws ContradictionException {
        Placement placement = Placement.of(view, Optional.of(capture), Optional.empty(), List.of(), profile);
        JsonNode coding = fact.at("/coding/" + profile.word());
        assertThat(placement.region().map(Code::value)).isEqualTo(value(coding.get("anatomic_region"), codes));
        assertThat(placement.modifier().map(Code::value)).isEqualTo(value(coding.get("region_modifier"), codes));
        boolean inherited = view.mode() == View.Mode.INHERITED;
        assertThat(placement.laterality())
                .isEqualTo(inherited ? Optional.empty() : text(coding.get("image_laterality")));
        // Outside the mouth a camera that looks to the patient's left sees the right side; inside, from the midline,
        // the left (F-08).
        String look = text(fact.at("/look_direction/value")).orElse("");
        boolean inner = view.id().startsWith("palatal") || view.id().startsWith("lingual");
        if (look.equals("L") || look.equals("R")) {
            String seen = look.equals("L") == inner ? "L" : "R";
            assertThat(view.id()).contains(seen.equals("R") ? "-right" : "-left");
            if (profile == CodingProfile.DENTAL && !view.group().equals("facial")) {
                assertThat(placement.laterality()).contains(seen);
                assertThat(view.side()).contains(seen);
            }
        }
    }

    private static Optional<String> text(JsonNode node) {
        return node == null || node.isNull() || node.isMissingNode() ? Optional.empty() : Optional.of(node.asString());
    }

    private static Optional<String> value(JsonNode node, Map<String, Code> codes) {
        return text(node).map(id -> codes.get(id).value());
    }

    @Test
    @DisplayName("every code that a view can bring stands in PS3.16, with that meaning")
    void codesExist() throws IOException {
        Set<String> known = new HashSet<>();
        JsonNode groups = facts("standard/context-groups.json");
        groups.get("groups").forEach(group -> group.get("codes").forEach(code -> known.add(entry(code))));
        groups.at("/oralAndFacialCodes/rows").forEach(code -> known.add(entry(code)));
        groups.at("/bodyPartExamined/rows")
                .forEach(row -> known.add(
                        row.get("scheme").asString() + " " + row.get("code").asString()));
        List<Code> used = new ArrayList<>();
        for (View view : CATALOGUE.views()) {
            for (CodingProfile profile : CodingProfile.values()) {
                View.Coding coding = view.coding(profile);
                coding.region().ifPresent(used::add);
                coding.modifier().ifPresent(used::add);
                used.addAll(coding.structures());
            }
        }
        assertThat(used)
                .isNotEmpty()
                .allSatisfy(code -> assertThat(known).as("%s", code).contains(code.scheme() + " " + code.value()));
    }

    private static String entry(JsonNode code) {
        return code.get(0).asString() + " " + code.get(1).asString();
    }

    @Test
    @DisplayName(
            "52 teeth: code, ISO 3950, Universal, arch and side agree with PS3.16 CID 4018, 4019 and with one another")
    void teeth() throws IOException {
        JsonNode rows = facts("standard/context-groups.json").at("/teeth/rows");
        assertThat(rows).hasSize(52);
        Set<String> designations = new HashSet<>();
        Set<String> universals = new HashSet<>();
        for (JsonNode row : rows) {
            Tooth tooth = CATALOGUE.tooth(row.get("iso3950").asString()).orElseThrow();
            int quadrant = Integer.parseInt(tooth.designation().substring(0, 1));
            int place = Integer.parseInt(tooth.designation().substring(1));
            boolean permanent = quadrant <= 4;
            assertThat(designations.add(tooth.designation())).isTrue();
            assertThat(universals.add(tooth.universal())).isTrue();
            assertThat(tooth.code().value()).isEqualTo(row.get("code").asString());
            assertThat(CATALOGUE.tooth(tooth.code())).contains(tooth);
            assertThat(row.get("cid").asInt()).isEqualTo(permanent ? 4018 : 4019);
            assertThat(place).isBetween(1, permanent ? 8 : 5);
            // Quadrants 1 and 5 upper right, 2 and 6 upper left, 3 and 7 lower left, 4 and 8 lower right.
            assertThat(tooth.upper()).isEqualTo(Set.of(1, 2, 5, 6).contains(quadrant));
            assertThat(tooth.right()).isEqualTo(Set.of(1, 4, 5, 8).contains(quadrant));
            assertThat(tooth.code().meaning().toLowerCase(java.util.Locale.ROOT))
                    .contains(tooth.upper() ? "maxillary" : "mandibular")
                    .contains(tooth.right() ? "right" : "left");
            assertThat(tooth.universal()).as(tooth.designation()).isEqualTo(universal(tooth, place, permanent));
        }
    }

    /** Counted from the upper right hindmost tooth over to the left and back along the lower jaw (from memory). */
    private static String universal(Tooth tooth, int place, boolean permanent) {
        int most = permanent ? 8 : 5;
        int number;
        if (tooth.upper()) {
            number = tooth.right() ? most - place + 1 : most + place;
        } else {
            number = tooth.right() ? 3 * most + place : 3 * most - place + 1;
        }
        return permanent ? Integer.toString(number) : Character.toString((char) ('A' + number - 1));
    }

    @Test
    @DisplayName("the sets are those of the facts, place by place")
    void sets() throws IOException {
        for (JsonNode fact : facts("trade/photo-sets.json").get("sets")) {
            PhotoSet set =
                    SetCatalogue.standard().set(fact.get("id").asString()).orElseThrow();
            assertThat(set.places()).hasSize(fact.get("items").size());
            for (int i = 0; i < set.places().size(); i++) {
                PhotoSet.Place place = set.places().get(i);
                JsonNode item = fact.get("items").get(i);
                assertThat(place.position()).isEqualTo(item.get("position").asInt());
                assertThat(place.views().get(0)).isEqualTo(item.get("view").asString());
                assertThat(place.views()).hasSize(1 + item.path("substitutes").size());
                assertThat(place.required()).isEqualTo(item.get("required").asBoolean());
                assertThat(place.repeat()).isEqualTo(item.path("repeat").asBoolean(false));
                assertThat(place.stage()).isEqualTo(text(item.get("stage")));
            }
        }
        assertThat(SetCatalogue.standard().problems(CATALOGUE)).isEmpty();
    }
}
