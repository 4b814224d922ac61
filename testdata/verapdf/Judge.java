import java.io.FileInputStream;
import java.util.Set;
import java.util.TreeSet;

import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/**
 * Judges files as PDF/A-3b and prints a line for each, in the order given:
 * the file, a tab, "3b compliant" or each rule that it breaks, with clause and
 * test number as in ISO 19005-3.
 *
 * To fetch what it needs, and run it from its source:
 *
 *   mvn -f testdata/verapdf dependency:copy-dependencies -DoutputDirectory=DIR
 *   java -cp 'DIR/*' testdata/verapdf/Judge.java PACK.pdf
 */
public class Judge {
	public static void main(String[] files) throws Exception {
		VeraGreenfieldFoundryProvider.initialise();
		for (String file : files) {
			System.out.println(file + "\t" + verdict(file));
		}
	}

	private static String verdict(String file) {
		PDFAFlavour flavour = PDFAFlavour.PDFA_3_B;
		try (FileInputStream in = new FileInputStream(file);
				PDFAParser parser = Foundries.defaultInstance().createParser(in, flavour);
				PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false)) {
			ValidationResult result = validator.validate(parser);
			if (result.isCompliant()) {
				return result.getPDFAFlavour().getId() + " compliant";
			}
			Set<String> broken = new TreeSet<>();
			for (TestAssertion a : result.getTestAssertions()) {
				broken.add(a.getRuleId().getClause() + " test " + a.getRuleId().getTestNumber() + ": " + oneLine(a.getMessage()));
			}
			return String.join("; ", broken);
		} catch (Exception e) {
			return "cannot be judged: " + oneLine(String.valueOf(e));
		}
	}

	private static String oneLine(String s) {
		return s.replaceAll("\\s+", " ");
	}
}
