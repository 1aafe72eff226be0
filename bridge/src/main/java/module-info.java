/** The job: photographs in, checked objects out, into the archive. Nothing is exported: it is a program. */
@SuppressWarnings("requires-automatic") // the Exif and TOML libraries carry only a module name
module vestibule.bridge {
    requires vestibule.dicom;
    requires vestibule.validator;
    requires static org.jspecify;
    requires java.desktop;
    requires org.slf4j;
    requires org.apache.commons.cli;
    requires org.tomlj;
    requires tools.jackson.databind;
    requires com.drew.metadata;
    requires com.google.zxing;
    requires org.apache.commons.csv;
    requires java.sql;
    requires jdk.httpserver;
    requires ch.qos.logback.classic;
    requires ch.qos.logback.core;
    requires com.zaxxer.hikari;
    requires flyway.core;
    requires org.jdbi.v3.core;
}
