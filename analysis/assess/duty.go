package assess

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/diagram"
)

// Charge of an impulse of a crest of 1 A, s: of an 8/20 current, which In and
// Imax are (the integral of A t³ e^(-t/τ), 6 A τ⁴ = 17.45 µs), and of the 10/350
// one of Iimp (half the crest times a millisecond: IEC 61643-11, preferred
// values of Iimp and Q).
const (
	chargeOf8x20   = 17.45e-6
	chargeOf10x350 = 0.5e-3
)

// dutyFindings reports every protector that more charge goes through, in one of
// its lines and in one surge case, than its ratings stand once. One that states
// none is passed over.
func dutyFindings(doc *diagram.Document, result *analysis.Result) []analysis.Finding {
	var out []analysis.Finding
	for p := range doc.ProtectorsOf(result.Plan) {
		stands, rating := standsCharge(p)
		worst, surge := analysis.Duty{}, diagram.Surge{}
		for _, s := range result.Surges {
			if d := greatestCharge(s.Protectors[p.ID]); d.Charge > worst.Charge {
				worst, surge = d, s.Surge
			}
		}
		if overloads(p, worst) {
			out = append(out, overload(doc, p, worst, surge, stands, rating))
		}
	}
	return out
}

// overloads reports whether a mode of a protector takes more charge than a rating
// of it stands.
func overloads(p diagram.Protector, d analysis.Duty) bool {
	stands, _ := standsCharge(p)
	return stands > 0 && d.Charge > stands
}

func greatestCharge(duties []analysis.Duty) analysis.Duty {
	worst := analysis.Duty{}
	for _, d := range duties {
		if d.Charge > worst.Charge {
			worst = d
		}
	}
	return worst
}

// standsCharge returns the most charge that a rating of the protector has been
// tested with, in A s, and that rating; 0 where none is stated.
func standsCharge(p diagram.Protector) (charge float64, rating string) {
	for _, r := range []struct {
		amps, factor float64
		name         string
	}{{p.In, chargeOf8x20, "In"}, {p.Imax, chargeOf8x20, "Imax"}, {p.Iimp, chargeOf10x350, "Iimp"}} {
		if q := r.amps * r.factor; q > charge {
			charge, rating = q, fmt.Sprintf("%s of %s", r.name, analysis.FigureIn(r.amps, "A"))
		}
	}
	return charge, rating
}

// larger says what would stand a charge, C, in a surge case: by the rating that is
// tested with its wave.
func larger(charge float64, wave diagram.Wave) string {
	if wave == diagram.ImpulseWave {
		return fmt.Sprintf("use one of type 1 or class I with an Iimp of at least %s", analysis.FigureIn(upTo500(charge/chargeOf10x350), "A"))
	}
	return fmt.Sprintf("use one with an In or Imax of at least %s", analysis.FigureIn(upTo500(charge/chargeOf8x20), "A"))
}

// upTo500 rounds up to a whole half kiloampere, as ratings are.
func upTo500(amperes float64) float64 { return 500 * math.Ceil(amperes/500) }

func overload(doc *diagram.Document, p diagram.Protector, d analysis.Duty, surge diagram.Surge, stands float64, rating string) analysis.Finding {
	amperes := func(q float64) string { return analysis.FigureIn(significant(q), "C") }
	return analysis.Finding{
		Rule: "protector.overloaded", Facts: d, Severity: analysis.Error, Subject: analysis.SubjectProtector, Records: []diagram.ID{p.ID, p.Bus},
		What:   fmt.Sprintf("%s carries more than it is rated for: %s in %s, and its %s allows %s", doc.NameOf(p.ID), amperes(d.Charge), d.Mode, rating, amperes(stands)),
		Why:    fmt.Sprintf("in the surge case “%s”; a protector that fails holds nothing, so that case is judged without it", analysis.SurgeName(doc, surge)),
		Remedy: larger(d.Charge, surge.Wave) + ", or state those that it has",
		Source: "charge of an 8/20 current 17.45 µs times its crest; of a 10/350 current half a millisecond times it, IEC 61643-11 (preferred values)",
	}
}
