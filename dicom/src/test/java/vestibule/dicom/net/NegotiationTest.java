package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.Uid;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;

@DisplayName("Negotiation of presentation contexts and roles (PS3.8 9.3.3.2, PS3.7 D.3.3.4)")
class NegotiationTest {

    /** Reads {@code 1.1:1.10,1.11 1.2:1.10}: SOP classes, each with transfer syntaxes. */
    private static List<String[]> list(String text) {
        return Arrays.stream(text.split(" ", -1))
                .filter(t -> !t.isEmpty())
                .map(t -> t.split(":", -1))
                .toList();
    }

    @ParameterizedTest(name = "proposed {0}, supported {1}: {2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "1.1:1.10           | 1.1:1.10           | 1=1.10",
                "1.1:1.10,1.11      | 1.1:1.11,1.10      | 1=1.11",
                "1.1:1.11,1.10      | 1.1:1.10           | 1=1.10",
                "1.1:1.10           | 1.1:1.11           | 1=TRANSFER_SYNTAXES_NOT_SUPPORTED",
                "1.2:1.10           | 1.1:1.10           | 1=ABSTRACT_SYNTAX_NOT_SUPPORTED",
                "1.1:1.10 1.1:1.11  | 1.1:1.10,1.11      | 1=1.10 3=1.11",
                "1.1:1.10 1.1:1.10  | 1.1:1.10           | 1=1.10 3=1.10",
                "1.1:1.10 1.2:1.10  | 1.2:1.10           | 1=ABSTRACT_SYNTAX_NOT_SUPPORTED 3=1.10",
                "1.1:1.10           | ''                 | 1=ABSTRACT_SYNTAX_NOT_SUPPORTED",
                "nonsense:1.10      | 1.1:1.10           | 1=ABSTRACT_SYNTAX_NOT_SUPPORTED",
                "1.1:nonsense,1.10  | 1.1:1.10           | 1=1.10",
                "1.1:nonsense       | 1.1:1.10           | 1=TRANSFER_SYNTAXES_NOT_SUPPORTED",
                "1.01:1.10          | 1.1:1.10           | 1=ABSTRACT_SYNTAX_NOT_SUPPORTED"
            })
    void the_acceptor_answers_every_context_and_takes_its_own_first_choice(
            String proposed, String supported, String expected) {
        List<String[]> wanted = list(proposed);
        List<Pdu.ProposedItem> items = new java.util.ArrayList<>();
        for (String[] each : wanted) {
            items.add(new Pdu.ProposedItem(2 * items.size() + 1, each[0], List.of(each[1].split(",", -1))));
        }
        List<SupportedContext> known = list(supported).stream()
                .map(each -> SupportedContext.provider(
                        new Uid(each[0]),
                        Arrays.stream(each[1].split(",", -1)).map(Uid::new).toList()))
                .toList();
        String answer = Negotiation.answer(items, known).stream()
                .map(context -> context.id() + "="
                        + context.transferSyntax()
                                .map(Uid::value)
                                .orElse(context.result().name()))
                .collect(Collectors.joining(" "));
        assertThat(answer).isEqualTo(expected);
    }

    @ParameterizedTest(
            name = "proposed user={0} provider={1}, supported provider={2} user={3}: answered user={4} provider={5}")
    @CsvSource({
        "true,  false, true,  false, true,  false",
        "true,  true,  true,  false, true,  false",
        "true,  true,  true,  true,  true,  true",
        "false, true,  true,  true,  false, true",
        "false, true,  true,  false, false, false",
        "false, true,  false, true,  false, true",
        "true,  false, false, true,  false, false",
        "false, false, true,  true,  false, false"
    })
    void a_role_is_granted_only_if_it_was_proposed_and_its_other_side_is_supported(
            boolean user,
            boolean provider,
            boolean asProvider,
            boolean asUser,
            boolean userAnswer,
            boolean providerAnswer) {
        SupportedContext supported = new SupportedContext(new Uid("1.1"), List.of(new Uid("1.10")), asProvider, asUser);
        assertThat(Negotiation.answerRoles(
                        List.of(new UserInformation.Role("1.1", user, provider)), List.of(supported)))
                .containsExactly(new UserInformation.Role("1.1", userAnswer, providerAnswer));
        assertThat(Negotiation.answerRoles(
                        List.of(new UserInformation.Role("1.9", user, provider)), List.of(supported)))
                .as("roles of SOP classes that are not supported are not answered")
                .isEmpty();
    }

    @ParameterizedTest(name = "proposed user={0} provider={1}, answered user={2} provider={3}: user={4} provider={5}")
    @CsvSource({
        "true,  true,  true,  true,  true,  true",
        "true,  true,  false, true,  false, true",
        "true,  false, true,  true,  true,  false",
        "false, true,  true,  false, false, false"
    })
    void a_requestor_believes_no_role_that_it_did_not_propose(
            boolean user,
            boolean provider,
            boolean userAnswer,
            boolean providerAnswer,
            boolean userInForce,
            boolean providerInForce) {
        List<UserInformation.Role> proposed = List.of(new UserInformation.Role("1.1", user, provider));
        assertThat(Negotiation.readRoles(
                        proposed,
                        List.of(
                                new UserInformation.Role("1.9", true, true),
                                new UserInformation.Role("1.1", userAnswer, providerAnswer))))
                .containsExactly(new RoleSelection(new Uid("1.1"), userInForce, providerInForce));
        assertThat(Negotiation.readRoles(proposed, List.of()))
                .as("without an answer the usual roles are in force")
                .isEmpty();
    }
}
