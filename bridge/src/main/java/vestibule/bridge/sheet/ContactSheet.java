package vestibule.bridge.sheet;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import java.util.Optional;

/** Writes the page: one file that needs no other, to be read on a screen, by a screen reader and on paper. */
public final class ContactSheet {

    private static final String STYLE = style();

    private ContactSheet() {}

    /**
     * The page.
     *
     * @param title what stands above it
     * @param notes lines for the whole page, as what was held back
     * @param sittings what it shows
     */
    public static String html(String title, List<String> notes, List<Sitting> sittings) {
        StringBuilder page = new StringBuilder();
        page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
                .append("<meta http-equiv=\"Content-Security-Policy\" ")
                .append("content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'\">\n")
                .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
                .append("<meta name=\"robots\" content=\"noindex\">\n")
                .append("<title>%s</title>\n<style>\n%s</style>\n</head>\n<body>\n".formatted(escaped(title), STYLE))
                .append("<main>\n<h1>%s</h1>\n".formatted(escaped(title)))
                .append(legend());
        if (!notes.isEmpty()) {
            page.append("<section class=\"notes\">\n<h2>To know</h2>\n")
                    .append(list(notes))
                    .append("</section>\n");
        }
        for (Sitting sitting : sittings) {
            append(page, sitting);
        }
        return page.append("</main>\n</body>\n</html>\n").toString();
    }

    private static String legend() {
        return "<p class=\"legend\">Letters beside a picture are the patient's directions: <b>R</b> right and <b>L</b> left of the patient, "
                + "A front, P back, H towards the head, F towards the feet. Compare them with a tooth or filling that you know. "
                + "Not a medical device: a clinician decides who, which view and which side.</p>\n";
    }

    private static void append(StringBuilder page, Sitting sitting) {
        page.append("<section class=\"sitting\">\n<header>\n<h2>%s</h2>\n"
                .formatted(escaped(sitting.patient().orElse("Patient not decided"))));
        page.append(line("identifiers", sitting.identifiers()));
        page.append(line("heading", sitting.heading()));
        page.append(counts(sitting));
        page.append("</header>\n");
        if (!sitting.missing().isEmpty()) {
            page.append("<div class=\"missing\" role=\"note\">\n<h3>Missing from the set</h3>\n")
                    .append(list(sitting.missing()))
                    .append("</div>\n");
        }
        page.append("<ol class=\"cards\">\n");
        for (int i = 0; i < sitting.cards().size(); i++) {
            append(page, sitting.cards().get(i), i + 1);
        }
        page.append("</ol>\n");
        if (!sitting.earlier().isEmpty()) {
            page.append("<div class=\"earlier\">\n<h3>Earlier photographs of the same views</h3>\n")
                    .append(list(sitting.earlier()))
                    .append("</div>\n");
        }
        page.append(
                "<p class=\"sign\">Checked, patient and sides right: <span></span> on <span></span></p>\n</section>\n");
    }

    private static String counts(Sitting sitting) {
        long proposed = count(sitting, Card.Standing.PROPOSED);
        long doubtful = count(sitting, Card.Standing.DOUBTFUL);
        StringBuilder words = new StringBuilder(
                sitting.cards().size() == 1 ? "1 picture" : sitting.cards().size() + " pictures");
        if (proposed > 0) {
            words.append(", ").append(proposed).append(" to be confirmed");
        }
        if (doubtful > 0) {
            words.append(", ").append(doubtful).append(doubtful == 1 ? " needs a person" : " need a person");
        }
        return "<p class=\"counts\">%s</p>\n".formatted(words);
    }

    private static long count(Sitting sitting, Card.Standing standing) {
        return sitting.cards().stream()
                .filter(card -> card.standing() == standing)
                .count();
    }

    private static void append(StringBuilder page, Card card, int number) {
        String view = card.view().orElse("View not decided");
        page.append("<li class=\"card %s\">\n<h3><span class=\"number\">%d</span> %s</h3>\n"
                .formatted(card.standing().name().toLowerCase(java.util.Locale.ROOT), number, escaped(view)));
        page.append("<p class=\"standing\">%s</p>\n"
                .formatted(escaped(card.standing().words())));
        picture(page, card, view);
        page.append("<dl>\n").append(row("side", card.side()));
        card.facts().forEach(fact -> {
            int parted = fact.indexOf(": ");
            page.append(row(fact.substring(0, Math.max(0, parted)), fact.substring(parted < 0 ? 0 : parted + 2)));
        });
        page.append(row("file", card.name())).append("</dl>\n");
        card.message().ifPresent(message -> page.append("<p class=\"message\">%s</p>\n".formatted(escaped(message))));
        page.append("<p class=\"ticks\" aria-hidden=\"true\">patient ☐ &nbsp; view ☐ &nbsp; side ☐</p>\n</li>\n");
    }

    /** The marks stand outside the picture, so that nothing of it is covered. */
    private static void picture(StringBuilder page, Card card, String view) {
        Optional<Card.Directions> directions = card.orientation();
        page.append("<div class=\"frame\">\n");
        mark(page, "top", directions.map(one -> Card.Directions.opposite(one.columns())));
        mark(page, "left", directions.map(one -> Card.Directions.opposite(one.rows())));
        if (card.picture().isPresent()) {
            page.append("<img alt=\"%s\" src=\"data:image/jpeg;base64,%s\">\n"
                    .formatted(
                            escaped(alternative(card, view)),
                            Base64.getEncoder().encodeToString(card.picture().get())));
        } else {
            page.append("<div class=\"none\">no picture can be shown here</div>\n");
        }
        mark(page, "right", directions.map(Card.Directions::rows));
        mark(page, "bottom", directions.map(Card.Directions::columns));
        page.append("</div>\n");
    }

    private static void mark(StringBuilder page, String edge, Optional<String> letters) {
        String text = letters.orElse("?");
        boolean side = text.contains("R") || text.contains("L");
        page.append("<span class=\"mark %s%s\" aria-hidden=\"true\">%s</span>\n"
                .formatted(edge, side ? " side" : "", escaped(text)));
    }

    private static String alternative(Card card, String view) {
        String lies = card.orientation()
                .map(one -> "; left edge %s, right edge %s, top %s, bottom %s"
                        .formatted(
                                Card.Directions.opposite(one.rows()),
                                one.rows(),
                                Card.Directions.opposite(one.columns()),
                                one.columns()))
                .orElse("; directions not known");
        return "%s, %s, %s%s".formatted(view, card.side(), card.standing().words(), lies);
    }

    private static String row(String name, String value) {
        return "<div><dt>%s</dt><dd>%s</dd></div>\n".formatted(escaped(name), escaped(value));
    }

    private static String line(String style, List<String> parts) {
        return parts.isEmpty()
                ? ""
                : "<p class=\"%s\">%s</p>\n"
                        .formatted(
                                style,
                                String.join(
                                        " · ",
                                        parts.stream()
                                                .map(ContactSheet::escaped)
                                                .toList()));
    }

    private static String list(List<String> lines) {
        StringBuilder list = new StringBuilder("<ul>\n");
        lines.forEach(line -> list.append("<li>").append(escaped(line)).append("</li>\n"));
        return list.append("</ul>\n").toString();
    }

    /** Text for HTML; what a browser could take for a control is left out. */
    static String escaped(String text) {
        StringBuilder escaped = new StringBuilder();
        text.codePoints().forEach(character -> {
            switch (character) {
                case '&' -> escaped.append("&amp;");
                case '<' -> escaped.append("&lt;");
                case '>' -> escaped.append("&gt;");
                case '"' -> escaped.append("&quot;");
                case '\'' -> escaped.append("&#39;");
                default -> {
                    if (character >= ' ' && character != 0x7f) {
                        escaped.appendCodePoint(character);
                    }
                }
            }
        });
        return escaped.toString();
    }

    private static String style() {
        try (var in = ContactSheet.class.getResourceAsStream("sheet.css")) {
            if (in == null) {
                throw new IllegalStateException("the style of the contact sheet is missing from this program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
