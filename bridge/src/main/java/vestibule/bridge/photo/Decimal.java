package vestibule.bridge.photo;

import com.drew.lang.Rational;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Fractions as plain decimals of at most 16 characters (PS3.5 Table 6.2-1, DS). */
final class Decimal {

    private static final int LONGEST = 16;

    private Decimal() {}

    /** Empty for a fraction over zero, which means unknown, and for one that takes too many characters. */
    static Optional<String> of(Rational fraction) {
        if (fraction.getDenominator() == 0) {
            return Optional.empty();
        }
        String plain = BigDecimal.valueOf(fraction.getNumerator())
                .divide(BigDecimal.valueOf(fraction.getDenominator()), new MathContext(9))
                .stripTrailingZeros()
                .toPlainString();
        return plain.length() <= LONGEST ? Optional.of(plain) : Optional.empty();
    }

    /** All of them, or none if one cannot be written. */
    static List<String> of(List<Rational> fractions) {
        List<String> decimals = new ArrayList<>();
        for (Rational fraction : fractions) {
            Optional<String> decimal = of(fraction);
            if (decimal.isEmpty()) {
                return List.of();
            }
            decimals.add(decimal.get());
        }
        return decimals;
    }
}
