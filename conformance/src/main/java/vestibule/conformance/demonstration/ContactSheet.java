package vestibule.conformance.demonstration;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import vestibule.dicom.io.DicomFile;

/**
 * One self-contained page with every object of a folder: the picture as it lies in the object, the letters of Patient Orientation at the
 * edges they belong to, and what the object says of it. A person looks whether each picture shows what its label says.
 */
public final class ContactSheet {

    private ContactSheet() {}

    /** Arguments: folder of objects, page to write, and optionally a text file with a line for each photograph that was held back. */
    public static void main(String[] arguments) throws IOException {
        if (arguments.length < 2 || arguments.length > 3) {
            System.err.println("usage: ContactSheet OBJECTS PAGE [HELD-BACK]");
            System.exit(2);
        }
        List<String> heldBack =
                arguments.length == 3 ? Files.readAllLines(Path.of(arguments[2]), StandardCharsets.UTF_8) : List.of();
        Files.writeString(Path.of(arguments[1]), page(cards(Path.of(arguments[0])), heldBack));
    }

    static List<ContactCard> cards(Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            List<ContactCard> cards = new ArrayList<>();
            for (Path file : files.filter(one -> one.toString().endsWith(".dcm"))
                    .sorted()
                    .toList()) {
                cards.add(ContactCard.of(DicomFile.read(file)));
            }
            cards.sort(Comparator.comparing(ContactCard::patient).thenComparing(ContactCard::taken));
            return cards;
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    static String page(List<ContactCard> cards, List<String> heldBack) {
        Map<String, List<ContactCard>> byPatient = new LinkedHashMap<>();
        cards.forEach(card -> byPatient
                .computeIfAbsent(card.patient(), patient -> new ArrayList<>())
                .add(card));
        StringBuilder page = new StringBuilder(START);
        byPatient.forEach((patient, own) -> {
            page.append("<h2>").append(ContactCard.escaped(patient)).append("</h2>\n<div class=\"sheet\">\n");
            own.forEach(card -> page.append(card.html()));
            page.append("</div>\n");
        });
        if (!heldBack.isEmpty()) {
            page.append("<h2>Held back</h2>\n<ul>\n");
            heldBack.forEach(line ->
                    page.append("<li>").append(ContactCard.escaped(line)).append("</li>\n"));
            page.append("</ul>\n");
        }
        return page.append(END).toString();
    }

    private static final String START = """
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <title>Contact sheet</title>
            <style>
            body { font-family: system-ui, sans-serif; margin: 2rem; background: #f4f4f2; color: #1c1c1c; }
            .sheet { display: flex; flex-wrap: wrap; gap: 1.2rem; }
            figure { margin: 0; width: 22rem; background: #fff; border: 1px solid #bbb; padding: .6rem; }
            .frame { position: relative; background: #222; display: flex; justify-content: center; }
            .frame img { display: block; max-width: 100%; max-height: 22rem; }
            .mark { position: absolute; background: #fff; color: #000; font-weight: 700; padding: 0 .35rem; border: 1px solid #000; }
            .left { left: 0; top: 45%; } .right { right: 0; top: 45%; } .top { top: 0; left: 47%; } .bottom { bottom: 0; left: 47%; }
            figcaption { margin-top: .5rem; font-size: .9rem; line-height: 1.4; }
            .view { font-weight: 700; }
            .uid { color: #555; font-size: .75rem; overflow-wrap: anywhere; }
            </style>
            </head>
            <body>
            <h1>Contact sheet</h1>
            <p>Each picture as it lies in its object. The letters at the edges are Patient Orientation: R and L are the patient's right and
            left, A front, P back, H towards the head, F towards the feet. Invented patients, drawn pictures. Not a medical device.</p>
            """;

    private static final String END = "</body>\n</html>\n";
}
