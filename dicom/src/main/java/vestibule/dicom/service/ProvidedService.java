package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/** A service as its provider offers it. Called by several threads, one association each. */
public interface ProvidedService {

    /** The SOP classes and transfer syntaxes it takes. */
    List<SupportedContext> contexts();

    /**
     * Takes one request and answers it.
     *
     * @throws IOException if the association cannot go on
     */
    void handle(Association association, Message request) throws IOException;
}
