/**
 * The standard as rules: what must be true of an object, found or not found in it, with the clause and the advice. The library
 * runs on {@code dicom} alone; only its command needs Commons CLI.
 */
module vestibule.validator {
    requires transitive vestibule.dicom;
    requires static org.jspecify;
    requires static org.apache.commons.cli;
    requires static java.desktop;

    exports vestibule.validator;
    exports vestibule.validator.report;
}
