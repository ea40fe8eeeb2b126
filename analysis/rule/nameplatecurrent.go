package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// currentRules look at discharge currents that contradict each other or the type,
// and at those that are none of the values of a standard.
func currentRules() []record[nameplate] {
	return []record[nameplate]{
		tellsIf("nameplate.Imax below In", nameplate.imaxBelowIn, sayImaxBelowIn),
		tellsIf("nameplate.Imax below Iimp", nameplate.imaxBelowIimp, sayImaxBelowIimp),
		tellsIf("nameplate.no Iimp", nameplate.noIimp, sayNoIimp),
		tellsIf("nameplate.point of use", nameplate.pointOfUse, sayPointOfUse),
		tellsOne("nameplate.In", nameplate.offIn, sayOff),
		tellsOne("nameplate.Iimp", nameplate.offIimp, sayOff),
		tellsOne("nameplate.SCCR", nameplate.offSCCR, sayOffSCCR),
	}
}

func (p nameplate) imaxBelowIn() bool { return p.Imax > 0 && p.Imax < p.In }

func sayImaxBelowIn(p nameplate) said {
	return said{
		severity: analysis.Warning,
		what:     p.name() + " has an Imax below its In",
		why:      "the current that it withstands once cannot be below the one that it withstands fifteen times",
		remedy:   "read both off the nameplate",
		source:   "IEC 61643-11:2011 clause 3, definitions " + recalled,
		working:  append(kiloampereStep("In", p.In), kiloampereStep("Imax", p.Imax)...),
	}
}

func (p nameplate) imaxBelowIimp() bool { return p.Imax > 0 && p.Imax < p.Iimp }

func sayImaxBelowIimp(p nameplate) said {
	return said{
		severity: analysis.Warning,
		what:     p.name() + " has an Imax below its Iimp",
		why:      "a 10/350 wave carries many times the charge of an 8/20 wave of the same crest: what withstands the first withstands the second",
		remedy:   "read both off the nameplate",
		source:   "waves of IEC 62305-1:2010 annex B and IEC 60060-1:2010",
		working:  append(kiloampereStep("Imax", p.Imax), kiloampereStep("Iimp", p.Iimp)...),
	}
}

func (p nameplate) noIimp() bool {
	return p.Type == diagram.ClassI && p.Iimp <= 0
}

func sayNoIimp(p nameplate) said {
	return said{
		severity: analysis.Warning,
		what:     p.name() + " is class I and states no Iimp",
		why:      "class I is the test with Iimp; without it nobody can say what share of a strike it carries",
		remedy:   "read it off the nameplate, or correct the class",
		source:   "IEC 61643-11:2011, class I tests",
	}
}

// mostOfTypeThree is the In up to which a protector for the point of use may
// well be one (common practice, no source).
const mostOfTypeThree = 10e3

func (p nameplate) pointOfUse() bool {
	return forPointOfUse(p.Type) && (p.In > mostOfTypeThree || p.Iimp > 0)
}

func sayPointOfUse(p nameplate) said {
	return said{
		severity: analysis.Remark,
		what:     fmt.Sprintf("%s is %s and states the currents of a larger one", p.name(), p.Type),
		why:      "a protector for the point of use is seldom rated for so much",
		remedy:   "read type and currents off the nameplate",
		source:   commonPractice,
		working:  append(kiloampereStep("In", p.In), kiloampereStep("Iimp", p.Iimp)...),
	}
}

// kiloampereStep is a current of the nameplate, where it states that.
func kiloampereStep(name string, amperes float64) analysis.Working {
	if amperes <= 0 {
		return nil
	}
	return analysis.Working{{Label: name, Result: amperes / 1e3, Unit: "kA", Source: fromSheet}}
}

// row is the values that a standard has for a current, in kA.
type row struct {
	name   string
	values []float64
	source string
}

var (
	inOfTypeOne = row{"In", []float64{10, 20}, "UL 1449, type 1: public summary of the 3rd edition"}
	inOfType    = row{"In", []float64{3, 5, 10, 20}, "UL 1449: public summary of the 3rd edition"}
	inOfClass   = row{"In", []float64{0.05, 0.1, 0.25, 0.5, 1, 1.5, 2, 2.5, 3, 5, 10, 15, 20}, "IEC 61643-11, preferred values: public summary"}
	iimpOfClass = row{"Iimp", []float64{1, 2, 5, 10, 12.5, 20, 25}, "IEC 61643-11, preferred values: public summary"}
	sccrSteps   = row{"SCCR", []float64{5, 10, 14, 18, 22, 25, 30, 42, 50, 65, 85, 100, 125, 150, 200}, "usual values, from memory; " + commonPractice}
)

// has reports whether the row has a current, A.
func (r row) has(amperes float64) bool {
	return slices.ContainsFunc(r.values, func(kiloamperes float64) bool { return sameCurrent(kiloamperes*1e3, amperes) })
}

// first returns the first current of the row that is enough, A, or 0.
func (r row) first(enough func(amperes float64) bool) float64 {
	for _, kiloamperes := range r.values {
		if amperes := kiloamperes * 1e3; enough(amperes) {
			return amperes
		}
	}
	return 0
}

// highest returns the highest current of the row, A.
func (r row) highest() float64 { return r.values[len(r.values)-1] * 1e3 }

// sameCurrent leaves room for the rounding of a current that was typed in kA.
func sameCurrent(a, b float64) bool { return a-b < 1e-3 && b-a < 1e-3 }

// off is a current that is not of its row.
type off struct {
	row
	amperes float64
}

// offRow compares a current with the row of a standard. UL 1449
// has no others for a listing; the values of IEC are preferred ones, below whose
// highest few others are sold.
func (p nameplate) offRow(r row, amperes float64) (off, bool) {
	return off{r, amperes}, amperes > 0 && !r.has(amperes) && (!isIEC(p.Type) || amperes <= r.highest())
}

func (p nameplate) offIn() (off, bool) {
	switch {
	case isIEC(p.Type):
		return p.offRow(inOfClass, p.In)
	case p.Type == diagram.Type1:
		return p.offRow(inOfTypeOne, p.In)
	case p.Type != "":
		return p.offRow(inOfType, p.In)
	}
	return off{}, false
}

func (p nameplate) offIimp() (off, bool) {
	if !isIEC(p.Type) {
		return off{}, false
	}
	return p.offRow(iimpOfClass, p.Iimp)
}

func sayOff(p nameplate, o off) said {
	out := said{
		severity: analysis.Remark,
		what:     fmt.Sprintf("%s states an %s of %s, which is none of the usual values", p.name(), o.name, kiloamperes(o.amperes)),
		why:      "the standard has " + o.text(),
		remedy:   "see whether it is another current, or a slip; mind amperes and kiloamperes",
		source:   o.source,
	}
	if p.Type == diagram.Type1 && inOfType.has(o.amperes) {
		out.severity = analysis.Warning
		out.what = p.name() + " is type 1 and states an In of " + kiloamperes(o.amperes)
	}
	return out
}

// text writes the row: "10 or 20 kA", "3, 5, 10 or 20 kA".
func (r row) text() string {
	values := make([]string, len(r.values))
	for i, value := range r.values {
		values[i] = analysis.Figure(value)
	}
	return unit.List(values, "or") + "\u00a0kA"
}

// offSCCR finds an SCCR that is none of the usual values of North America.
func (p nameplate) offSCCR() (off, bool) {
	if p.Type == "" || isIEC(p.Type) {
		return off{}, false
	}
	return p.offRow(sccrSteps, p.SCCR)
}

func sayOffSCCR(p nameplate, o off) said {
	return said{
		severity: analysis.Remark,
		what:     p.name() + " states an SCCR of " + kiloamperes(o.amperes) + ", which is none of the usual values",
		why:      "usual are " + o.text(),
		remedy:   "read it off the nameplate; mind amperes and kiloamperes",
		source:   o.source,
	}
}
