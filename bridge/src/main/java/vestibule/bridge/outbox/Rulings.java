package vestibule.bridge.outbox;

import java.time.Clock;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Update;

/** What was decided about photographs, and what people said. */
public final class Rulings {

    /** Why something that was filed is taken back that is no photograph to file. */
    private static final String NOT_TO_BE_FILED = "wrong-detail";

    private final Database database;
    private final Ledger ledger;
    private final Clock clock;

    Rulings(Database database, Ledger ledger, Clock clock) {
        this.database = database;
        this.ledger = ledger;
        this.clock = clock;
    }

    /** A person's word. */
    public record Said(String about, String answer, Optional<String> by, Instant at) {}

    /**
     * A photograph as it was taken in, with what bears on others beside it.
     *
     * @param name in the source that is being decided
     * @param otherNames other names that the same bytes lie or lay under, in this source or another
     * @param folder where the source lies, which two nodes may call otherwise
     * @param medium on which of the memory cards it is that lay in the source one after another
     */
    public record Photograph(
            String photo,
            String name,
            List<String> otherNames,
            String source,
            String folder,
            int medium,
            Instant fileTime,
            Instant takenIn,
            List<Said> said,
            Elsewhere elsewhere) {

        /** With lists that nobody can change. */
        public Photograph {
            otherNames = List.copyOf(otherNames);
            said = List.copyOf(said);
        }
    }

    /**
     * What other sources have to do with a photograph.
     *
     * @param decided whether it is decided elsewhere or at another time, and only bears witness now
     * @param borne whether what the cards of this source say of it is to be kept, for where it is decided
     * @param says what the cards of this source said of it then
     * @param heard what the cards of other sources say of it, where it is decided here
     */
    public record Elsewhere(boolean decided, boolean borne, Optional<String> says, List<String> heard) {

        /** With a list that nobody can change. */
        public Elsewhere {
            heard = List.copyOf(heard);
        }
    }

    /**
     * What is known of a photograph before it is decided.
     *
     * @param photograph as it was taken in
     * @param decision what was decided of it before
     * @param heard how many of the words that people said of it that takes account of, the first ones
     * @param filed whether the archive may have something of it
     * @param undecided whether it is to be decided; else it only bears witness
     * @param doubted whether a doubt of deciding stands
     * @param round in which it is being decided; nothing is recorded once another process has taken that up
     */
    public record Known(
            Photograph photograph,
            Optional<String> decision,
            int heard,
            boolean filed,
            boolean undecided,
            boolean doubted,
            Optional<Rounds.Round> round) {

        /** Its hash. */
        public String photo() {
            return photograph.photo();
        }

        int said() {
            return photograph.said().size();
        }
    }

    /** Sources with photographs to decide, or with a round that was left, those due for it. */
    public List<String> sources(String place) throws OutboxException {
        return sources(place, clock.millis());
    }

    /** The same, due or not. */
    public List<String> open(String place) throws OutboxException {
        return sources(place, Long.MAX_VALUE);
    }

    private List<String> sources(String place, long now) throws OutboxException {
        return database.reading(handle -> handle.createQuery("""
                        SELECT name FROM source WHERE due <= :now AND (
                          EXISTS (SELECT 1 FROM photo WHERE photo.source = source.name AND photo.place = :place
                            AND photo.undecided = 1 AND photo.kept = 1)
                          OR EXISTS (SELECT 1 FROM witness w WHERE w.source = source.name AND w.place = :place AND w.undecided = 1)
                          OR EXISTS (SELECT 1 FROM deciding_round r WHERE r.source = source.name AND r.place = :place))
                        ORDER BY name""")
                .bind("place", place)
                .bind("now", now)
                .mapTo(String.class)
                .list());
    }

    /**
     * The undecided photographs of a source, those of a round about it, and those of it near them in time, in the order of their names.
     * There may be a hundred thousand, so each is handed on as soon as it is read.
     *
     * @param as what becomes of each
     */
    public <T> List<T> toDecide(String source, String place, Function<Photograph, T> as) throws OutboxException {
        return database.inTransaction(handle -> {
            Optional<Rounds.Span> span = Rounds.widened(handle, source, place);
            if (span.isEmpty()) {
                return List.of();
            }
            return Testimony.near(handle, source, place, span.get(), as);
        });
    }

    /** Some photographs with what was decided of each before, in their order; one that is no longer kept is left out. */
    public List<Known> known(List<Photograph> photographs, Optional<Rounds.Round> round) throws OutboxException {
        if (photographs.isEmpty()) {
            return List.of();
        }
        return database.reading(handle -> {
            Map<String, Photograph> byHash = new HashMap<>();
            photographs.forEach(photograph -> byHash.put(photograph.photo(), photograph));
            Map<String, Known> known = new HashMap<>();
            handle.createQuery("""
                            SELECT hash, decision, heard, undecided, CASE WHEN reason IS NOT NULL AND delivery = 0 THEN 1 ELSE 0 END
                              AS doubted, EXISTS (SELECT 1 FROM dicom_object o WHERE o.photo = photo.hash AND o.state <> 'made') AS filed
                            FROM photo WHERE kept = 1 AND hash IN (<photos>)""")
                    .bindList("photos", byHash.keySet())
                    .map((result, context) -> new Known(
                            Objects.requireNonNull(byHash.get(result.getString("hash"))),
                            Optional.ofNullable(result.getString("decision")),
                            result.getInt("heard"),
                            result.getBoolean("filed"),
                            result.getInt("undecided") != 0,
                            result.getInt("doubted") != 0,
                            round))
                    .forEach(one -> known.put(one.photo(), one));
            return photographs.stream()
                    .map(photograph -> known.get(photograph.photo()))
                    .filter(Objects::nonNull)
                    .toList();
        });
    }

    /**
     * Everything is decided. Another decision than before makes new objects, unless what is filed stands, whose grounds alone are others:
     * then what its delivery asks is still asked. What is being taken back, or was, does not stand.
     *
     * @param takesBack why what the archive has of the photograph is wrong; empty where it stands
     */
    public void decided(Known basis, String decision, Optional<String> takesBack) throws OutboxException {
        rule(
                basis,
                takesBack.isPresent() ? "decided otherwise" : "decided",
                takesBack,
                handle -> handle.createUpdate("""
                        UPDATE photo SET
                          revision = CASE WHEN decision = :decision OR (:stands = 1 AND NOT EXISTS (
                              SELECT 1 FROM withdrawal w JOIN dicom_object o ON o.sop_instance = w.sop_instance
                              WHERE o.photo = photo.hash AND o.revision = photo.revision))
                            THEN revision ELSE revision + 1 END,
                          decision = :decision, undecided = 0, proposal = NULL,
                          reason = CASE WHEN :stands = 1 AND delivery = 1 THEN reason ELSE NULL END,
                          message = CASE WHEN :stands = 1 AND delivery = 1 THEN message ELSE NULL END,
                          delivery = CASE WHEN :stands = 1 THEN delivery ELSE 0 END,
                          heard = :heard, doubt_waits = 0, aside = NULL, due = 0, attempts = 0
                        WHERE hash = :photo""")
                        .bind("decision", decision)
                        .bind("stands", basis.filed() && takesBack.isEmpty() ? 1 : 0)
                        .bind("heard", basis.said()));
    }

    /** It was looked at, and nothing is to be said of it; a doubt that stands is not answered by that. */
    public void looked(Known basis) throws OutboxException {
        rule(
                basis,
                "looked at again",
                Optional.empty(),
                handle -> handle.createUpdate("UPDATE photo SET undecided = 0 WHERE hash = :photo"));
    }

    /** The decision that stands still stands, for everything says the same; what was doubtful of it no longer is. */
    public void stands(Known basis) throws OutboxException {
        rule(
                basis,
                "the decision stands",
                Optional.empty(),
                handle -> handle.createUpdate("""
                        UPDATE photo SET undecided = 0, doubt_waits = 0, heard = :heard, aside = NULL,
                          reason = CASE WHEN delivery = 0 THEN NULL ELSE reason END,
                          message = CASE WHEN delivery = 0 THEN NULL ELSE message END,
                          proposal = CASE WHEN delivery = 0 THEN NULL ELSE proposal END
                        WHERE hash = :photo""").bind("heard", basis.said()));
    }

    /** A person has to decide about something that is filed; what a delivery asks about it already comes first, and then this again. */
    public void doubtfulOfFiled(Known basis, String reason, String message) throws OutboxException {
        boolean asked = database.reading(handle -> handle.createQuery(
                                "SELECT COUNT(*) FROM photo WHERE hash = :photo AND delivery = 1 AND reason IS NOT NULL")
                        .bind("photo", basis.photo())
                        .mapTo(Integer.class)
                        .one()
                > 0);
        if (asked) {
            rule(
                    basis,
                    reason + " waits for what its delivery asks",
                    Optional.empty(),
                    handle -> handle.createUpdate(
                            "UPDATE photo SET undecided = 1 - delivery, doubt_waits = delivery WHERE hash = :photo"));
        } else {
            doubtful(basis, reason, message, Optional.empty());
        }
    }

    /** A person has to decide. What stands already is not written down again. */
    public void doubtful(Known basis, String reason, String message, Optional<String> proposal) throws OutboxException {
        Map<String, String> said = Map.of("reason", reason, "message", message, "proposal", proposal.orElse(""));
        if (!has(
                basis.photo(),
                "reason = :reason AND message = :message AND COALESCE(proposal, '') = :proposal AND delivery = 0 AND aside IS NULL",
                said)) {
            rule(
                    basis,
                    reason,
                    Optional.empty(),
                    handle -> handle.createUpdate("""
                            UPDATE photo SET reason = :reason, message = :message, proposal = :proposal, delivery = 0,
                              doubt_waits = 0, aside = NULL, undecided = 0 WHERE hash = :photo""")
                            .bind("reason", reason)
                            .bind("message", message)
                            .bind("proposal", proposal));
        }
    }

    /** It is no photograph to file. What stands already is not written down again. */
    public void setAside(Known basis, String why) throws OutboxException {
        if (!has(basis.photo(), "aside = :why", Map.of("why", why))) {
            rule(
                    basis,
                    "set aside",
                    basis.filed() ? Optional.of(NOT_TO_BE_FILED) : Optional.empty(),
                    handle -> handle.createUpdate("""
                            UPDATE photo SET aside = :why, reason = NULL, message = NULL, proposal = NULL, delivery = 0,
                              undecided = 0 WHERE hash = :photo""").bind("why", why));
        }
    }

    private boolean has(String photo, String condition, Map<String, String> values) throws OutboxException {
        return database.reading(handle ->
                handle.createQuery("SELECT COUNT(*) FROM photo WHERE hash = :photo AND undecided = 0 AND " + condition)
                                .bind("photo", photo)
                                .bindMap(values)
                                .mapTo(Integer.class)
                                .one()
                        > 0);
    }

    private interface Change {
        Update on(Handle handle);
    }

    /** Only has it decided again if a person said something since it was read, it was seen under another name, or sending it began. */
    private void rule(Known basis, String cause, Optional<String> takesBack, Change change) throws OutboxException {
        database.inTransaction(handle -> {
            if (basis.round().isPresent()
                    && !Rounds.isHeld(handle, basis.round().get(), database.dialect())) {
                return false;
            }
            ledger.lock(handle, basis.photo());
            boolean current = Testimony.isCurrent(handle, basis);
            if (current) {
                takesBack.ifPresent(reason -> Withdrawals.record(handle, basis.photo(), reason, clock.millis()));
                change.on(handle).bind("photo", basis.photo()).execute();
                ledger.settle(handle, basis.photo(), clock.millis(), cause);
            } else {
                handle.createUpdate("UPDATE photo SET undecided = 1 WHERE hash = :photo")
                        .bind("photo", basis.photo())
                        .execute();
            }
            return current;
        });
    }

    /**
     * How a sitting stands.
     *
     * @param photo its first photograph
     * @param takenIn when the last of its photographs was taken in
     * @param state the rest, for whoever wrote it
     */
    public record SittingKept(String photo, Instant takenIn, String state) {}

    /** Keeps how the sittings stand that photographs lie in, in the place of what was kept of those photographs before. */
    public void sittings(String source, List<String> photos, List<SittingKept> sittings) throws OutboxException {
        database.inTransaction(handle -> {
            photos.forEach(photo -> handle.createUpdate("DELETE FROM sitting WHERE photo = :photo")
                    .bind("photo", photo)
                    .execute());
            sittings.forEach(sitting -> handle.createUpdate("""
                            INSERT INTO sitting (photo, source, taken_in, state)
                            VALUES (:photo, :source, :takenIn, :state)
                            ON CONFLICT (photo) DO UPDATE SET taken_in = :takenIn, state = :state""")
                    .bind("photo", sitting.photo())
                    .bind("source", source)
                    .bind("takenIn", sitting.takenIn().toEpochMilli())
                    .bind("state", sitting.state())
                    .execute());
            return source;
        });
    }

    /** Puts the deciding of a source off, since a directory or an original could not be read. */
    public void putOff(String source, Instant until) throws OutboxException {
        due(source, until.toEpochMilli(), "attempts + 1");
    }

    /** Deciding works again. */
    public void resumed(String source) throws OutboxException {
        due(source, 0, "0");
    }

    /** Has everything there decided at once that was put off. */
    public void dueNow(String place) throws OutboxException {
        database.inTransaction(
                handle -> handle.createUpdate("UPDATE source SET due = 0 WHERE place = :place AND due <> 0")
                        .bind("place", place)
                        .execute());
    }

    /** How often in a row the deciding of a source had to be put off. */
    public int attempts(String source) throws OutboxException {
        return database.reading(handle -> handle.createQuery("SELECT attempts FROM source WHERE name = :source")
                .bind("source", source)
                .mapTo(Integer.class)
                .findOne()
                .orElse(0));
    }

    private void due(String source, long due, String attempts) throws OutboxException {
        database.inTransaction(handle -> handle.createUpdate(
                        "UPDATE source SET due = :due, attempts = " + attempts + " WHERE name = :source")
                .bind("due", due)
                .bind("source", source)
                .execute());
    }

    /** Keeps what a person said about a photograph, and has it decided again. */
    public void say(String photo, List<Said> said) throws OutboxException {
        database.inTransaction(handle -> {
            handle.createUpdate(
                            "UPDATE source SET due = 0, attempts = 0 WHERE name = (SELECT source FROM photo WHERE hash = :photo)")
                    .bind("photo", photo)
                    .execute();
            ledger.lock(handle, photo);
            said.forEach(each -> Testimony.insert(handle, photo, each));
            Witnesses.spoken(handle, photo);
            handle.createUpdate("UPDATE photo SET undecided = 1, aside = NULL WHERE hash = :photo")
                    .bind("photo", photo)
                    .execute();
            ledger.settle(handle, photo, clock.millis(), "a person said " + abouts(said));
            return photo;
        });
    }

    private static String abouts(List<Said> said) {
        return String.join(", ", said.stream().map(Said::about).toList());
    }

    /**
     * A person does not want a photograph filed. The word is kept like any other.
     *
     * @return false if the archive may have it already, where nothing is changed
     */
    public boolean discard(String photo, Said said) throws OutboxException {
        return database.inTransaction(handle -> {
            ledger.lock(handle, photo);
            boolean filed = handle.createQuery(
                                    "SELECT COUNT(*) FROM dicom_object WHERE photo = :photo AND state NOT IN ('made', 'rejected')")
                            .bind("photo", photo)
                            .mapTo(Integer.class)
                            .one()
                    > 0;
            if (!filed) {
                Testimony.insert(handle, photo, said);
                handle.createUpdate("""
                                UPDATE photo SET aside = 'discarded by a person', reason = NULL, message = NULL,
                                  proposal = NULL, delivery = 0, undecided = 0 WHERE hash = :photo""").bind("photo", photo).execute();
                ledger.settle(handle, photo, clock.millis(), "discarded by a person");
            }
            return !filed;
        });
    }

    /** Tries again from where it stopped: what was refused is sent again, what was in doubt is decided again. */
    public void retry(String photo, Said said) throws OutboxException {
        database.inTransaction(handle -> {
            ledger.lock(handle, photo);
            Testimony.insert(handle, photo, said);
            handle.createUpdate(
                            "UPDATE dicom_object SET state = 'made', status = NULL WHERE photo = :photo AND state = 'rejected'")
                    .bind("photo", photo)
                    .execute();
            // Where an answer was missed the archive is asked once more; only if it cannot be, the word stands for an
            // answer.
            handle.createUpdate("UPDATE dicom_object SET resend = 1 WHERE photo = :photo AND state = 'sending'")
                    .bind("photo", photo)
                    .execute();
            handle.createUpdate("UPDATE dicom_object SET due = 0, asks = 0 WHERE photo = :photo")
                    .bind("photo", photo)
                    .execute();
            clear(handle, photo, "1");
            ledger.settle(handle, photo, clock.millis(), "a person asked to try again");
            return photo;
        });
    }

    /**
     * A person has seen what came up while a photograph was delivered, and lets it stand.
     *
     * @return false if nothing came up there: then the word is about the decision
     */
    public boolean acknowledge(String photo, Said said) throws OutboxException {
        return database.inTransaction(handle -> {
            ledger.lock(handle, photo);
            boolean raised = handle.createQuery("SELECT COUNT(*) FROM photo WHERE hash = :photo AND delivery = 1")
                            .bind("photo", photo)
                            .mapTo(Integer.class)
                            .one()
                    > 0;
            if (raised) {
                Testimony.insert(handle, photo, said);
                // Who lets a missed answer stand believes that the archive has it; commitment will show.
                handle.createUpdate("""
                                UPDATE dicom_object SET state = 'found', changed_at = :now
                                WHERE photo = :photo AND state = 'sending'
                                  AND (SELECT reason FROM photo WHERE hash = :photo) = 'outcome-unknown'""")
                        .bind("now", clock.millis())
                        .bind("photo", photo)
                        .execute();
                clear(handle, photo, "undecided");
                ledger.settle(handle, photo, clock.millis(), "a person lets it stand");
            }
            return raised;
        });
    }

    /** What came up in deciding is decided again, also where it waited behind a question; what came up in delivering is forgotten. */
    static void clear(Handle handle, String photo, String undecided) {
        handle.createUpdate("""
                        UPDATE photo SET
                          undecided = CASE WHEN doubt_waits = 1 THEN 1 WHEN delivery = 1 THEN undecided ELSE %s END,
                          reason = CASE WHEN delivery = 1 THEN NULL ELSE reason END,
                          message = CASE WHEN delivery = 1 THEN NULL ELSE message END,
                          delivery = 0, doubt_waits = 0, due = 0, attempts = 0 WHERE hash = :photo""".formatted(undecided)).bind("photo", photo).execute();
    }
}
