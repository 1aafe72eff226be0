package vestibule.bridge.app;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.apache.commons.cli.CommandLine;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;

/** The words of one call, in the forms commands want them; a word of another form is wrong use, said in a sentence. */
final class Arguments {

    /** Where a person's name or id may stand, be it by mistake. */
    private static final Set<String> OF_PERSONS =
            Set.of("patient-name", "birth-date", "sex", "referring", "operator", "stage", "study");

    private final CommandLine line;

    Arguments(CommandLine line) {
        this.line = line;
    }

    /** The words that belong to no option. */
    List<String> words() {
        return line.getArgList();
    }

    boolean has(String option) {
        return line.hasOption(option);
    }

    Optional<String> text(String option) {
        return Optional.ofNullable(line.getOptionValue(option));
    }

    /** All values of an option that may be repeated. */
    List<String> texts(String option) {
        String[] values = line.getOptionValues(option);
        return values == null ? List.of() : List.of(values);
    }

    /** Text that must fit an attribute of that representation; never repeats the text, which may name a patient. */
    Optional<String> text(String option, VR vr) throws Failure {
        Optional<String> value = text(option);
        if (value.isPresent()) {
            Optional<String> problem =
                    value.get().isBlank() ? Optional.of("nothing") : TextForm.problem(vr, value.get());
            if (problem.isPresent()) {
                throw wrong(option, problem.get(), "text for an attribute of representation " + vr);
            }
        }
        return value;
    }

    String required(String option) throws Failure {
        return text(option)
                .orElseThrow(() -> new Failure(Exit.USAGE, "--%s is missing; see --help.".formatted(option)));
    }

    String required(String option, VR vr) throws Failure {
        required(option);
        return text(option, vr).orElseThrow();
    }

    Optional<Path> path(String option) throws Failure {
        Optional<String> text = text(option);
        return text.isPresent() ? Optional.of(path(option, text.get())) : Optional.empty();
    }

    static Path path(String what, String text) throws Failure {
        try {
            return Path.of(text);
        } catch (InvalidPathException e) {
            throw new Failure(Exit.USAGE, "%s: %s is no file name here; %s.".formatted(what, text, e.getReason()));
        }
    }

    Optional<LocalDate> date(String option) throws Failure {
        return parsed(option, LocalDate::parse, "a day as YYYY-MM-DD");
    }

    Optional<LocalTime> time(String option) throws Failure {
        return parsed(option, LocalTime::parse, "a time of day as HH:MM or HH:MM:SS");
    }

    Optional<Uid> uid(String option) throws Failure {
        return formed(option, Uid::parse, "a unique identifier: digits parted by dots, at most 64 characters");
    }

    Optional<PersonName> name(String option) throws Failure {
        return formed(
                option,
                text -> PersonName.parse(text).filter(name -> !name.isEmpty()),
                "a name as FAMILY^GIVEN^MIDDLE^PREFIX^SUFFIX, up to three groups parted by =, each at most 64 characters");
    }

    Optional<Integer> number(String option, int least, int most) throws Failure {
        return formed(
                option,
                text -> text.matches("[0-9]{1,9}")
                        ? Optional.of(Integer.parseInt(text)).filter(number -> number >= least && number <= most)
                        : Optional.empty(),
                "a whole number from %d to %d".formatted(least, most));
    }

    private <T> Optional<T> parsed(String option, Function<String, T> parser, String expected) throws Failure {
        try {
            return text(option).map(parser);
        } catch (DateTimeParseException e) {
            throw wrong(option, found(option, text(option).orElse("")), expected);
        }
    }

    <T> Optional<T> formed(String option, Function<String, Optional<T>> form, String expected) throws Failure {
        Optional<String> text = text(option);
        Optional<T> value = text.flatMap(form);
        if (text.isPresent() && value.isEmpty()) {
            throw wrong(option, found(option, text.get()), expected);
        }
        return value;
    }

    /** What is said of a person is not repeated, nor what is too long or too odd for a line. */
    private static String found(String option, String value) {
        return !OF_PERSONS.contains(option) && value.matches("[A-Za-z0-9.:+-]{1,40}")
                ? "\"" + value + "\""
                : "something else";
    }

    private static Failure wrong(String option, String found, String expected) {
        return new Failure(Exit.USAGE, "--%s: found %s, expected %s.".formatted(option, found, expected));
    }
}
