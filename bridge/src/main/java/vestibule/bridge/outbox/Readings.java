package vestibule.bridge.outbox;

import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/** What was read in photographs, so that none of them is opened again to be decided again. Nothing is lost with it. */
public final class Readings {

    private final Database database;

    Readings(Database database) {
        this.database = database;
    }

    /** What was read in those of these photographs that were read. */
    public Map<String, String> of(Collection<String> photos) throws OutboxException {
        return database.reading(handle -> {
            Map<String, String> readings = new HashMap<>();
            for (String photo : photos) {
                Optional<String> text = handle.createQuery("SELECT text FROM reading WHERE photo = :photo")
                        .bind("photo", photo)
                        .mapTo(String.class)
                        .findOne();
                text.ifPresent(found -> readings.put(photo, found));
            }
            return readings;
        });
    }

    /** Remembers what was read. */
    public void keep(Map<String, String> readings) throws OutboxException {
        if (readings.isEmpty()) {
            return;
        }
        database.inTransaction(handle -> {
            readings.forEach((photo, text) -> keep(handle, photo, text));
            return readings;
        });
    }

    static void keep(Handle handle, String photo, String text) {
        handle.createUpdate("""
                        INSERT INTO reading (photo, text) VALUES (:photo, :text)
                        ON CONFLICT (photo) DO UPDATE SET text = :text""").bind("photo", photo).bind("text", text).execute();
    }
}
