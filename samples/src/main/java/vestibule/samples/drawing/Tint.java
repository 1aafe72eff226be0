package vestibule.samples.drawing;

/** A colour in linear light, each part 0 to 1. */
record Tint(double red, double green, double blue) {
    /** From the usual sRGB number, 0xRRGGBB. */
    static Tint of(int rgb) {
        return new Tint(linear((rgb >> 16) & 255), linear((rgb >> 8) & 255), linear(rgb & 255));
    }

    private static double linear(int coded) {
        double v = coded / 255.0;
        return v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4);
    }

    Tint mixed(Tint other, double share) {
        return new Tint(
                red + (other.red - red) * share,
                green + (other.green - green) * share,
                blue + (other.blue - blue) * share);
    }

    Tint times(double factor) {
        return new Tint(red * factor, green * factor, blue * factor);
    }
}
