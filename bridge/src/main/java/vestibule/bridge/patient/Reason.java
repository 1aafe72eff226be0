package vestibule.bridge.patient;

import java.util.Locale;

/** Why a person has to say who is on a photograph. The codes stay the same from version to version. */
public enum Reason {
    /** Nothing says who it is. */
    NO_PATIENT("nothing says who is on it; say so with --patient"),
    /** It was taken before the first patient card of its source. */
    BEFORE_FIRST_CARD("it was taken before the first patient card of its source; say with --patient who it is"),
    /** There was a long pause since the card. */
    AFTER_A_PAUSE(
            "there was a long pause between it and the photographs after the last patient card; say with --patient who it is"),
    /** The card was photographed onto another memory card. */
    ANOTHER_MEMORY_CARD(
            "the last patient card before it is on another memory card, or that one was cleared in between, and no new card was photographed; say with --patient who it is"),
    /** A card could not be read. */
    CARD_UNREADABLE(
            "a patient card in or before it, or a file that may be one, cannot be read; say with --patient who it is"),
    /** A card was mirrored. */
    CARD_MIRRORED(
            "the patient card in or before it is mirrored, so the camera may mirror every picture; check the camera, and say with --patient who it is"),
    /** The order of names and of times put it after different cards. */
    ORDER_UNCLEAR("its name and its time do not both say which patient card it follows; say with --patient who it is"),
    /** The day's list has somebody else by then. */
    ANOTHER_APPOINTMENT(
            "by the day's list somebody else's appointment had begun when it was taken, and no new card was photographed; say with --patient who it is"),
    /** Two pieces of evidence name different people. */
    EVIDENCE_DISAGREES("its evidence names more than one patient; say with --patient who it is"),
    /** There is a name or a birth date, and no id. */
    NO_PATIENT_ID("it has a name or a birth date and no patient id; say with --patient who it is"),
    /** Only one identifier, and nobody to confirm it. */
    ONE_IDENTIFIER(
            "only the patient id is known, and neither archive nor worklist confirms it; say the birth date too, or who it is with --patient"),
    /** An id that nobody knows. */
    ID_UNKNOWN("neither archive nor worklist knows its patient id; correct it, or say with --patient who it is"),
    /** An id that a search would take for a pattern. */
    ID_NOT_SEARCHABLE("its patient id has characters that a search takes for a pattern; say with --patient who it is"),
    /** The id is known, and nobody knows the name. */
    NAME_UNKNOWN("nobody knows the name that belongs to its patient id; say name and birth date with --patient"),
    /** More than one patient fits. */
    SEVERAL_CANDIDATES("more than one known patient fits; say with --patient who it is, with the issuer of the id"),
    /** The id belongs to somebody of another name. */
    NAME_DIFFERS("its patient id is known under another name; say with --patient who it is"),
    /** The id belongs to somebody born on another day. */
    BIRTH_DATE_DIFFERS("its patient id is known with another birth date; say with --patient who it is"),
    /** The id belongs to somebody of another sex. */
    SEX_DIFFERS("its patient id is known with another sex; say with --patient who it is"),
    /** The person is known under another id. */
    KNOWN_UNDER_ANOTHER_ID(
            "a person of this name and birth date is known under another patient id; say with --patient who it is"),
    /** Archive and lists contradict each other. */
    LISTS_DISAGREE(
            "archive and worklist do not say the same of this patient id; have the practice's records put right, then say with --patient who it is"),
    /** It was taken before the patient was born. */
    OLDER_THAN_PATIENT("it was taken before its patient was born; the patient or the camera's clock is wrong"),
    /** It was taken later than now. */
    FROM_THE_FUTURE(
            "it was taken later than it was taken in; the camera's clock is wrong, say in settings by how much"),
    /** The camera's clock was never set, or the picture waited for a month. */
    CLOCK_UNSET(
            "its camera's clock stands as after a change of battery, or more than a month before it was taken in; say in settings by how much it is wrong, or give the patient with --patient"),
    /** The file is older than the picture. */
    FILE_OLDER_THAN_PICTURE("its file is older than the picture in it; the camera's clock or the file's was changed"),
    /** The same bytes are in the archive under another patient. */
    FILED_UNDER_ANOTHER_PATIENT(
            "the same photograph is filed under another patient already; say with --patient which is right"),
    /** It was filed by a patient card, and something that turned up since puts in doubt which card counts. */
    FILED_AND_IN_DOUBT(
            "it is filed by a patient card, and something that turned up since puts in doubt which card counts for it; say with --patient who it is");

    private final String sentence;

    Reason(String sentence) {
        this.sentence = sentence;
    }

    /** The code that reports use. */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** What is in doubt and what to do, without the name of the photograph and without a full stop. */
    public String sentence() {
        return sentence;
    }
}
