package vestibule.validator.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.validator.Photographs;
import vestibule.validator.Profile;
import vestibule.validator.Validator;

/** The letters are those of the trade facts, sections 1 and 2, and of PS3.3 C.7.6.1.1.1. */
@DisplayName("View, capture and correction in the words of an object")
class ViewCheckTest {

    private static DataSet.Builder object(String words, String orientation, String side) {
        return Photographs.good().toBuilder()
                .put(Attributes.ACQUISITION_CONTEXT_DESCRIPTION, words)
                .put(Attributes.IMAGE_LATERALITY, side)
                .put(Attributes.PATIENT_ORIENTATION, orientation.split("/", -1));
    }

    private static List<String> rules(String words, String orientation, String side) throws IOException {
        return rules(object(words, orientation, side));
    }

    private static List<String> rules(DataSet.Builder object) throws IOException {
        return Validator.under(Profile.PRACTICE).validate(object.build(), Photographs.SYNTAX).findings().stream()
                .map(finding -> finding.rule().id().toString())
                .filter(id -> id.compareTo("PHO-022") >= 0 && id.compareTo("PHO-025") <= 0)
                .toList();
    }

    @ParameterizedTest(name = "{0} as {1}")
    @CsvSource({
        // the mirror picture as recorded, called finished (F-03)
        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=corrected; correction=flip-vertical, L/A, B",
        "view=occlusal-mandibular-mirror; capture=mirror-behind; picture=corrected; correction=flip-horizontal, R/A, B",
        "view=teeth-buccal-right-mirror; capture=mirror-front; picture=corrected; correction=flip-horizontal, P/F, R",
        "view=palatal-maxillary-right; capture=mirror-front; picture=corrected; correction=flip-horizontal, A/F, R",
        "view=face-front-smile; capture=direct, R/F, U",
        "view=smile-oblique-right; capture=direct, RP/F, U"
    })
    @DisplayName("a picture that still is a mirror image is an error")
    void mirrored(String words, String orientation, String side) throws IOException {
        assertThat(rules(words, orientation, side)).containsExactly("PHO-022");
    }

    @ParameterizedTest(name = "{0} as {1}")
    @CsvSource({
        "view=face-front-smile; capture=direct, R/H, U",
        "view=face-front-smile; capture=direct-behind; picture=corrected; correction=turn-180, R/H, U",
        "view=teeth-buccal-left-direct; capture=direct; picture=corrected; correction=turn-90, H/P, L",
        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=corrected; correction=transpose, P/R, B"
    })
    @DisplayName("a picture that was turned, and its direction not, is worth a look")
    void turned(String words, String orientation, String side) throws IOException {
        assertThat(rules(words, orientation, side)).containsExactly("PHO-023");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        // only turned, it looks finished and is not (F-14)
        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=corrected; correction=turn-180, L/P, B",
        "view=occlusal-maxillary-mirror; capture=mirror-front, L/P, B",
        "view=occlusal-maxillary-mirror; capture=direct, L/P, B",
        "view=occlusal-maxillary-mirror; capture=mirror-flipped; picture=corrected; correction=flip-vertical, L/P, B",
        "view=face-front-smile; capture=mirror-front; picture=corrected; correction=flip-vertical, L/F, U",
        "view=face-front-smile; capture=direct; picture=corrected; correction=flip-vertical, L/F, U",
        "view=face-front-smile; capture=direct-behind, L/F, U",
        "view=face-front-smile; capture=sideways, L/F, U",
        "view=face-front-smile; capture=direct; picture=corrected; correction=turn-45, L/F, U"
    })
    @DisplayName("a capture that its view does not have, or a correction that its capture does not take, is an error")
    void taken(String words, String orientation, String side) throws IOException {
        assertThat(rules(words, orientation, side)).containsExactly("PHO-024");
    }

    @ParameterizedTest(name = "{0} as {1}")
    @CsvSource({
        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=corrected; correction=flip-vertical, L/P, B",
        // as recorded: reversed, and so it says
        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=uncorrected, L/A, B",
        "view=occlusal-maxillary-mirror; capture=mirror-flipped; picture=corrected; correction=in-camera, L/P, B",
        // incisors at the bottom, as some practices show the upper arch
        "view=occlusal-maxillary-mirror; capture=mirror-behind; picture=corrected; correction=flip-vertical, R/A, B",
        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=copy, L/P, B",
        "view=smile-oblique-right; capture=direct, AL/F, U",
        "view=tooth-closeup; capture=mirror-front; picture=corrected; correction=flip-horizontal, P/F, R",
        "view=of-another-program; capture=unheard-of, R/F, L",
        "taken by hand, R/F, R"
    })
    @DisplayName("what fits, what says of itself that it is as recorded, and the words of others are left alone")
    void fits(String words, String orientation, String side) throws IOException {
        assertThat(rules(words, orientation, side)).isEmpty();
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "view=teeth-buccal-left-direct; capture=direct, P/F, L",
        "view=palatal-maxillary-right; capture=mirror-front; picture=corrected; correction=flip-horizontal, P/F, R",
        "view=cast-buccal-right; capture=direct, A/F, R",
        "view=face-profile-right-rest; capture=direct, A/F, R",
        "view=face-profile-left-smile; capture=direct, P/F, L",
        "view=face-oblique-right-smile; capture=direct, LA/F, R",
        "view=smile-oblique-left; capture=direct, LP/F, L"
    })
    @DisplayName(
            "a view of one side may be said to be of that side or unpaired; the other side is an error, and so are both")
    void oneSide(String words, String orientation, String shown) throws IOException {
        assertThat(rules(words, orientation, shown)).isEmpty();
        assertThat(rules(words, orientation, "U")).isEmpty();
        assertThat(rules(words, orientation, shown.equals("R") ? "L" : "R")).containsExactly("PHO-025");
        assertThat(rules(words, orientation, "B")).containsExactly("PHO-025");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "view=occlusal-maxillary-mirror; capture=mirror-front; picture=corrected; correction=flip-vertical, L/P",
        "view=lingual-mandibular-anterior; capture=mirror-front; picture=corrected; correction=flip-vertical, L/AH",
        "view=teeth-front-occlusion; capture=direct, L/F",
        "view=teeth-overbite-front-low; capture=direct, L/F",
        "view=anterior-maxillary-front; capture=direct, L/F",
        "view=cast-front; capture=direct, L/F",
        "view=cast-occlusal-mandibular; capture=direct, L/A",
        "view=face-front-smile; capture=direct, L/F",
        "view=face-submental; capture=direct, L/FP"
    })
    @DisplayName("a view of both sides may be said to be of both or unpaired; one side is an error, teeth or not")
    void bothSides(String words, String orientation) throws IOException {
        assertThat(rules(words, orientation, "B")).isEmpty();
        assertThat(rules(words, orientation, "U")).isEmpty();
        for (String side : List.of("R", "L")) {
            assertThat(rules(words, orientation, side)).containsExactly("PHO-025");
            assertThat(rules(object(words, orientation, side)
                            .put(
                                    Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE,
                                    List.of(Photographs.code(
                                            "SCT", "422653006", "Permanent maxillary right central incisor tooth")))))
                    .containsExactly("PHO-025");
        }
    }

    @ParameterizedTest
    @CsvSource({"shade-tab", "tooth-closeup", "treatment-stage", "soft-tissue-lesion", "lab-work"})
    @DisplayName("the side of a tooth, a lesion or a stage is not that of its view")
    void ownSide(String view) throws IOException {
        for (String side : List.of("R", "L", "B", "U")) {
            assertThat(rules("view=" + view + "; capture=direct", "L/F", side)).isEmpty();
        }
    }

    @Test
    @DisplayName("a side need not be said")
    void unsaid() throws IOException {
        assertThat(rules(object("view=teeth-buccal-left-direct; capture=direct", "P/F", "L")
                        .remove(Attributes.IMAGE_LATERALITY)))
                .isEmpty();
    }

    @Test
    @DisplayName("laboratory work needs no region and no direction; other photographs do")
    void laboratory() throws IOException {
        for (String view : List.of("lab-work", "cast-front")) {
            DataSet object = Photographs.good().toBuilder()
                    .put(Attributes.ACQUISITION_CONTEXT_DESCRIPTION, "view=" + view + "; capture=direct")
                    .putEmpty(Attributes.PATIENT_ORIENTATION)
                    .remove(Attributes.ANATOMIC_REGION_SEQUENCE)
                    .build();
            List<String> found =
                    Validator.under(Profile.PRACTICE).validate(object, Photographs.SYNTAX).findings().stream()
                            .map(finding -> finding.rule().id().toString())
                            .filter(id -> id.equals("PHO-009") || id.equals("PHO-010"))
                            .toList();
            assertThat(found).isEqualTo(view.equals("lab-work") ? List.of() : List.of("PHO-010", "PHO-009"));
        }
    }
}
