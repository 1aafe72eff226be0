/**
 * The part of the DICOM standard that Vestibule needs, written small and named in the standard's own words. A reader of
 * files never meets a socket: {@code net} and {@code service} are open to the bridge only.
 */
@SuppressWarnings("module") // the modules named in qualified exports are compiled later
module vestibule.dicom {
    requires static transitive org.jspecify;
    requires org.slf4j;
    requires jdk.net;
    requires jdk.unsupported;

    exports vestibule.dicom.data;
    exports vestibule.dicom.dict;
    exports vestibule.dicom.io;
    exports vestibule.dicom.jpeg;
    exports vestibule.dicom.net to
            vestibule.bridge,
            vestibule.conformance;
    exports vestibule.dicom.net.tls to
            vestibule.bridge,
            vestibule.conformance;
    exports vestibule.dicom.service to
            vestibule.bridge,
            vestibule.conformance;
}
