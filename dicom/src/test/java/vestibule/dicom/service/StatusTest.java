package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.dicom.service.Status.Category;

@DisplayName("Statuses (PS3.4 Table B.2-1, C.4; PS3.7 C)")
class StatusTest {

    /**
     * All 65,536 statuses of a C-STORE answer in order, typed from PS3.4 Table B.2-1 and PS3.7 Annex C: first and last of a run, what it is, and
     * whether the same object may be taken later. A failure the standard does not define promises nothing, so trying again is not ruled out.
     */
    private static final String C_STORE = """
            0000 0000 SUCCESS no
            0001 0001 WARNING no
            0002 00FF FAILURE yes
            0100 0106 FAILURE no
            0107 0107 WARNING no
            0108 010F FAILURE no
            0110 0110 FAILURE yes
            0111 0115 FAILURE no
            0116 0116 WARNING no
            0117 01FF FAILURE no
            0200 020F FAILURE no
            0210 0210 FAILURE yes
            0211 0212 FAILURE no
            0213 0213 FAILURE yes
            0214 02FF FAILURE no
            0300 9FFF FAILURE yes
            A000 A6FF FAILURE yes
            A700 A7FF FAILURE yes
            A800 A8FF FAILURE yes
            A900 A9FF FAILURE no
            AA00 AFFF FAILURE yes
            B000 BFFF WARNING no
            C000 CFFF FAILURE no
            D000 FFFF FAILURE yes
            """;

    @Test
    @DisplayName("every one of the 65,536 statuses of C-STORE is classified, each once")
    void store() {
        int next = 0;
        for (String line : C_STORE.lines().toList()) {
            String[] words = line.split(" ", -1);
            int first = Integer.parseInt(words[0], 16);
            int last = Integer.parseInt(words[1], 16);
            assertThat(first).as("no gap before " + line).isEqualTo(next);
            for (int code = first; code <= last; code++) {
                Status status = Status.of(Status.Service.C_STORE, code);
                assertThat(status.code()).isEqualTo(code);
                assertThat(status.category()).as("%04X", code).isEqualTo(Category.valueOf(words[2]));
                assertThat(status.retry()).as("%04X", code).isEqualTo(words[3].equals("yes"));
                assertThat(status.words()).isNotBlank();
            }
            next = last + 1;
        }
        assertThat(next).isEqualTo(0x10000);
    }

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource({
        "C_FIND, 0000, SUCCESS",
        "C_FIND, FF00, PENDING",
        "C_FIND, FF01, PENDING",
        "C_FIND, FE00, CANCEL",
        "C_FIND, A700, FAILURE",
        "C_FIND, A900, FAILURE",
        "C_FIND, C123, FAILURE",
        "C_FIND, 0122, FAILURE",
        "C_MOVE, B000, WARNING",
        "C_MOVE, A801, FAILURE",
        "C_MOVE, FF00, PENDING",
        "C_GET, A702, FAILURE",
        "C_ECHO, 0000, SUCCESS",
        "C_ECHO, 0122, FAILURE",
        "N_ACTION, 0000, SUCCESS",
        "N_ACTION, 0213, FAILURE",
        "N_EVENT_REPORT, 0113, FAILURE",
        "N_CREATE, 0107, WARNING",
        "N_CREATE, 0116, WARNING",
        "N_CREATE, 0111, FAILURE",
        "N_SET, 0110, FAILURE"
    })
    void statuses_of_the_other_services(Status.Service service, String code, Category category) {
        assertThat(Status.of(service, Integer.parseInt(code, 16)).category()).isEqualTo(category);
    }

    @ParameterizedTest
    @EnumSource
    @DisplayName("every status of every service has a meaning, and only 0000 is success")
    void complete(Status.Service service) {
        for (int code = 0; code <= 0xFFFF; code++) {
            boolean success = Status.of(service, code).category() == Category.SUCCESS;
            assertThat(success).as("%s %04X", service, code).isEqualTo(code == 0);
        }
    }
}
