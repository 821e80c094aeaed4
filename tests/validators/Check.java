import java.io.File;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.ValidationResult;
import org.verapdf.pdfa.validation.profiles.RuleId;

/**
 * Validates files: the first argument names the flavours (3a,ua1), the others the files.
 *
 * For each file and flavour a line "FILE TAB FLAVOUR TAB true|false", and for
 * each rule that failed a line "TAB CLAUSE-TEST TAB COUNT TAB TEXT".
 */
public final class Check {
    public static void main(String[] arguments) throws Exception {
        Logger.getLogger("").setLevel(Level.OFF);
        VeraGreenfieldFoundryProvider.initialise();
        for (int at = 1; at < arguments.length; at++) {
            for (String name : arguments[0].split(",")) {
                check(new File(arguments[at]), PDFAFlavour.byFlavourId(name));
            }
        }
    }

    private static void check(File file, PDFAFlavour flavour) throws Exception {
        try (PDFAParser parser = Foundries.defaultInstance().createParser(file, flavour);
                PDFAValidator validator =
                        Foundries.defaultInstance().createValidator(flavour, 100, true, false, false)) {
            ValidationResult result = validator.validate(parser);
            System.out.printf("%s\t%s\t%b%n", file, flavour.getId(), result.isCompliant());
            for (Map.Entry<RuleId, Integer> one : result.getFailedChecks().entrySet()) {
                RuleId rule = one.getKey();
                String told = result.getValidationProfile().getRuleByRuleId(rule).getDescription();
                System.out.printf(
                        "\t%s-%d\t%d\t%s%n",
                        rule.getClause(), rule.getTestNumber(), one.getValue(), told);
            }
        }
    }
}
