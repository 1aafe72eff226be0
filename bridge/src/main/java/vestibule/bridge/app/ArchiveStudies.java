package vestibule.bridge.app;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.PhotographSearch;
import vestibule.bridge.delivery.SearchException;
import vestibule.bridge.object.KnownStudy;
import vestibule.bridge.patient.Patient;
import vestibule.dicom.net.Deadlines;

/** The studies of a patient that the archive has, by one query for each sitting. */
final class ArchiveStudies implements VisitStudying.Studies {

    private final PhotographSearch search;

    private ArchiveStudies(PhotographSearch search) {
        this.search = search;
    }

    /** Those of that archive; without one there is nobody to ask, and no study is known. */
    static VisitStudying.Studies of(Optional<Destination> archive, String ourTitle, Deadlines deadlines) {
        return archive.isPresent()
                ? new ArchiveStudies(new PhotographSearch(archive.get(), ourTitle, deadlines))
                : VisitStudying.Studies.NONE;
    }

    @Override
    public List<KnownStudy> of(Patient patient) throws IOException {
        try {
            return KnownStudy.of(search.studies(Optional.of(patient.id()), Optional.empty()));
        } catch (SearchException e) {
            throw new DirectoryException("the archive, asked about studies: " + e.nameless(), e);
        }
    }
}
