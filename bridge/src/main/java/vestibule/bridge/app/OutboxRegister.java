package vestibule.bridge.app;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.intake.Listing;
import vestibule.bridge.intake.Register;
import vestibule.bridge.outbox.Arrivals;

/** What is taken in from one source goes into the outbox. */
final class OutboxRegister implements Register {

    private final Arrivals arrivals;
    private final CaptureMoments moments;
    private final String source;
    private final String place;
    private List<Arrivals.Lying> lying = List.of();

    /**
     * @param moments when photographs were taken
     * @param folder where the source lies
     * @param node on whose computer
     */
    OutboxRegister(Arrivals arrivals, CaptureMoments moments, String folder, String place, String node)
            throws IOException {
        this.arrivals = arrivals;
        this.moments = moments;
        this.place = place;
        this.source = arrivals.sourceSeen(folder, place, node);
    }

    @Override
    public String source() {
        return source;
    }

    @Override
    public void lies(List<Listing.Entry> files) throws IOException {
        List<Arrivals.Lying> now = files.stream()
                .map(file -> new Arrivals.Lying(file.name(), file.bytes(), file.changed()))
                .toList();
        if (!now.equals(lying)) {
            arrivals.lie(source, now);
            lying = now;
        }
    }

    @Override
    public boolean knowsLength(long bytes) throws IOException {
        return arrivals.isLengthKnown(bytes);
    }

    @Override
    public boolean keeps(String photo) throws IOException {
        return arrivals.isKept(photo, place);
    }

    @Override
    public boolean taken(Listing.Entry file, String photo, Optional<String> seen) throws IOException {
        return arrivals.record(new Arrivals.Arrival(
                source,
                file.name(),
                photo,
                file.bytes(),
                file.changed(),
                moments.of(photo, file.changed()),
                place,
                seen));
    }

    @Override
    public void noCard(Listing.Entry file) throws IOException {
        arrivals.noCard(
                source,
                new Arrivals.Sighting(file.name(), file.bytes(), file.changed(), Optional.empty(), Optional.empty()));
    }

    @Override
    public void leftBehind(Listing.Entry file, String sentence) throws IOException {
        arrivals.leftBehind(
                source,
                new Arrivals.Sighting(
                        file.name(), file.bytes(), file.changed(), Optional.empty(), Optional.of(sentence)));
    }

    @Override
    public void unread(Listing.Entry file) throws IOException {
        arrivals.unread(
                source,
                place,
                new Arrivals.Sighting(file.name(), file.bytes(), file.changed(), Optional.empty(), Optional.empty()));
    }

    @Override
    public void gone(List<String> names) throws IOException {
        arrivals.gone(source, names);
    }

    @Override
    public List<String> names() throws IOException {
        return arrivals.sightings(source).stream().map(Arrivals.Sighting::name).toList();
    }

    @Override
    public void looked() throws IOException {
        arrivals.looked(source);
    }

    @Override
    public void trouble(String sentence) throws IOException {
        arrivals.trouble(source, sentence);
    }
}
