package vestibule.dicom.service;

import java.io.IOException;
import java.util.Iterator;
import java.util.List;
import java.util.stream.Stream;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/** Answers queries of one SOP class, be it query and retrieve or worklist (PS3.4 C.4.1, K.4.1; C-FIND). */
public final class QueryProvider implements ProvidedService {

    /** Finds matches. */
    public interface Handler {
        /**
         * Finds the matches of an identifier.
         *
         * @param identifier the keys, as they came
         * @param calling who asks
         * @throws RefusedException if the query is not served
         * @throws IOException if the matches cannot be read; the answer is then “unable to process”
         */
        Answer find(DataSet identifier, AeTitle calling) throws RefusedException, IOException;
    }

    /**
     * The matches of a query.
     *
     * @param matches each an identifier to return; taken one at a time, closed at the end
     * @param everyKeySupported whether each optional key was matched or returned like a required one
     */
    public record Answer(Stream<DataSet> matches, boolean everyKeySupported) {}

    private final Uid sopClass;
    private final Handler handler;

    /**
     * @param sopClass a SOP class of C-FIND
     * @param handler finds the matches
     */
    public QueryProvider(Uid sopClass, Handler handler) {
        this.sopClass = sopClass;
        this.handler = handler;
    }

    @Override
    public List<SupportedContext> contexts() {
        return Answering.plain(sopClass);
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        Answering.identified(association, request, CommandField.C_FIND_RQ, identifier -> {
            int status = find(association, request, identifier);
            ServiceProvider.answer(association, request, status, "");
        });
    }

    private int find(Association association, Message request, DataSet identifier)
            throws IOException, RefusedException {
        Cancellation cancellation = new Cancellation(association, request);
        Answer answer = handler.find(identifier, association.peer().calling());
        int pending = answer.everyKeySupported() ? Status.PENDING : Status.PENDING_WITHOUT_SOME_KEYS;
        try (Stream<DataSet> matches = answer.matches()) {
            for (Iterator<DataSet> each = matches.iterator(); each.hasNext(); ) {
                if (cancellation.isHeard()) {
                    return Status.CANCELLED;
                }
                DataSet match = QueryKeys.withCharacterSet(each.next());
                association.send(request.context(), request.command().response(pending, true), match);
            }
        }
        return Status.SUCCESS;
    }
}
