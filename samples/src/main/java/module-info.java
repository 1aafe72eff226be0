/** An invented practice: photographs drawn by code and hand-assembled files. Needs nothing of ours. */
module vestibule.samples {
    requires transitive java.desktop;
    requires static transitive org.jspecify;

    exports vestibule.samples;
    exports vestibule.samples.certificate;
}
