package analysis

import (
	"math"

	"clampline/diagram"
)

// Need is whether a building needs protection where its supply comes in, by
// the rules of IEC.
type Need struct {
	Needed  bool
	Sure    bool     // Needed follows from what the sheet says, not from what it lacks or from memory alone
	Why     string   // in either case
	Missing []string // what the sheet has to state for it to be sure, where the risk level decides
	Source  string
	Working Working // of the risk level, where that decides or would have
}

const (
	sourceBonding = "IEC 62305-3:2010 clause 6.2 " + Recalled
	sourceDefault = "BS 7671:2018 amendment 2:2022, section 443 " + Recalled
)

// NeedsProtection returns whether a building needs protection at its origin: a
// lightning protection system asks for it, then what the building is for, and
// else the method.
func NeedsProtection(e diagram.Exposure, method diagram.RiskMethod) Need {
	if e.Lightning.Present() {
		return Need{
			Needed: true, Sure: true, Source: sourceBonding,
			Why: "the building has a lightning protection system: part of a strike leaves through the supply",
		}
	}
	source := sourceRisk
	if method == diagram.ByDefault {
		source = sourceDefault
	}
	if why := alwaysNeeded(e.Occupancy); why != "" {
		return Need{Needed: true, Sure: true, Why: why, Source: source}
	}
	if e.Declined && e.Occupancy == diagram.Dwelling {
		return Need{Why: "the owner of this single dwelling of small value has declined it", Source: source}
	}
	if method == diagram.ByDefault {
		return Need{Needed: true, Why: "protection is the rule; only the owner of a single dwelling of small value may decline it", Source: source}
	}
	return needByRisk(e)
}

// alwaysNeeded says why clause 443.4 asks for protection without a calculation,
// or nothing where it does not. That hotels stand there among commerce is from
// memory.
func alwaysNeeded(o diagram.Occupancy) string {
	const always = ": protection is always needed"
	switch o {
	case diagram.HumanLife:
		return "an overvoltage would touch human life, as in medical care and safety services" + always
	case diagram.PublicService:
		return "an overvoltage would touch a public service or cultural heritage" + always
	case diagram.Commerce:
		return "an overvoltage would touch commerce or industry" + always
	case diagram.Assembly:
		return "an overvoltage would touch many people in one place" + always
	case diagram.SleepingRooms:
		return "an overvoltage would touch many people who sleep in one place, as in a hotel" + always
	}
	return ""
}

func needByRisk(e diagram.Exposure) Need {
	crl, working, known := RiskLevel(e)
	need := Need{Source: sourceRisk, Working: working, Missing: missingOf(e)}
	switch {
	case !known:
		need.Needed = true
		need.Why = "the lightning flash density is not entered, so protection is taken as needed"
	case crl < riskLimit:
		need.Needed, need.Sure = true, leastRisk(e) < riskLimit
		need.Why = "the calculated risk level is " + riskText(crl) + ", less than " + Figure(riskLimit)
		if !need.Sure {
			need.Why += ", where what is not stated is taken as worst: " + List(need.Missing)
		}
	default:
		need.Why = "the calculated risk level is " + riskText(crl) + ", not less than " + Figure(riskLimit)
		if e.Occupancy == "" {
			need.Why += "; whom the building serves is not known, and that may ask for protection all the same"
		}
	}
	return need
}

// missingOf names what the risk level is made of and the sheet does not state.
func missingOf(e diagram.Exposure) []string {
	var out []string
	if !(e.FlashDensity > 0) {
		out = append(out, "the lightning flash density")
	}
	if e.Surroundings == "" {
		out = append(out, "the surroundings")
	}
	if notStated(e) > 0 {
		out = append(out, "the lines to 1 km upstream or to an overvoltage device")
	}
	return out
}

// riskText writes a risk level: its inputs are not known to more digits.
func riskText(crl float64) string { return Figure(math.Round(crl*10) / 10) }
