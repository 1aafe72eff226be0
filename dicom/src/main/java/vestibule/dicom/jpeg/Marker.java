package vestibule.dicom.jpeg;

import java.util.Locale;

/** Marker codes of T.81 Table B.1 (the byte after FF). */
final class Marker {
    static final int TEM = 0x01;
    static final int SOF0 = 0xC0;
    static final int DHT = 0xC4;
    static final int JPG = 0xC8;
    static final int DAC = 0xCC;
    static final int SOF15 = 0xCF;
    static final int RST0 = 0xD0;
    static final int RST7 = 0xD7;
    static final int SOI = 0xD8;
    static final int EOI = 0xD9;
    static final int SOS = 0xDA;
    static final int DQT = 0xDB;
    static final int DNL = 0xDC;
    static final int DRI = 0xDD;
    static final int DHP = 0xDE;
    static final int EXP = 0xDF;
    static final int APP0 = 0xE0;
    static final int APP1 = 0xE1;
    static final int APP2 = 0xE2;
    static final int APP13 = 0xED;
    static final int APP14 = 0xEE;
    static final int APP15 = 0xEF;
    static final int SOF55 = 0xF7;
    static final int COM = 0xFE;

    private Marker() {}

    static boolean isRestart(int code) {
        return code >= RST0 && code <= RST7;
    }

    static boolean isApplication(int code) {
        return code >= APP0 && code <= APP15;
    }

    static boolean isFrameHeader(int code) {
        return code >= SOF0 && code <= SOF15 && code != DHT && code != JPG && code != DAC;
    }

    /** The marker as a person reads it, such as {@code DHT (FFC4)}. */
    static String name(int code) {
        return word(code) + String.format(Locale.ROOT, " (FF%02X)", code);
    }

    private static String word(int code) {
        if (isRestart(code)) {
            return "RST" + (code - RST0);
        }
        if (isApplication(code)) {
            return "APP" + (code - APP0);
        }
        if (isFrameHeader(code)) {
            return "SOF" + (code - SOF0);
        }
        return switch (code) {
            case DHT -> "DHT";
            case DAC -> "DAC";
            case SOI -> "SOI";
            case EOI -> "EOI";
            case SOS -> "SOS";
            case DQT -> "DQT";
            case DNL -> "DNL";
            case DRI -> "DRI";
            case DHP -> "DHP";
            case EXP -> "EXP";
            case COM -> "COM";
            case TEM -> "TEM";
            case SOF55 -> "JPEG-LS frame header";
            default -> "reserved marker";
        };
    }
}
