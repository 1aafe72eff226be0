package vestibule.validator.report;

/**
 * What stands at the head of every report.
 *
 * @param program name and version of the program
 * @param edition the edition of the standard
 * @param profile the profile's name
 */
public record ReportHeader(String program, String edition, String profile) {}
