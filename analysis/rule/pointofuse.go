package rule

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/analysis/conductor"
	"clampline/diagram"
)

// typeThreeDistance is how much conductor UL 1449 and NFPA 70 want between the
// service disconnect and a protector of type 3, m: 30 ft, which NFPA 70 rounds
// to 10 m.
const (
	typeThreeDistance = 9.144
	thirtyFeet        = "30\u00a0ft"
)

// pointOfUse reports whether the protector is one for the point of use.
func (s *site) pointOfUse() bool { return forPointOfUse(s.protector.Type) }

// typeThree reports whether what NFPA 70 says of type 3 counts.
func (s *site) typeThree() bool { return !s.iec && s.protector.Type == diagram.Type3 }

func (s *site) onSwitchboard() bool {
	return s.typeThree() && s.part.Kind == diagram.Switchboard
}

func sayOnSwitchboard(s *site) said {
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     "is type 3 and stands on a switchboard",
		why:      "type 3 is for the point of use: behind the breaker of a branch circuit, up to the equipment",
		remedy:   "use a type 1 or 2 protector here",
		source:   s.nfpaOn(typeThreePlace),
	}
}

// near is how much conductor leads to a protector of type 3.
type near struct {
	from             string  // what it is measured from
	wiring, distance float64 // of feeders, and with the lead of the protector, m
}

// tooNear finds too little conductor between a protector of type 3 and the
// disconnect of its service or separately derived system. Where that is not on
// the sheet it is measured from the source, which makes it longer.
func (s *site) tooNear() (near, bool) {
	if !s.typeThree() {
		return near{}, false
	}
	from, start := s.disconnect()
	wiring, measured := s.wiring(start)
	n := near{from, wiring, analysis.ToMicrometre(wiring + s.protector.Leads.Phase.Length)}
	return n, from != "" && measured && n.distance < typeThreeDistance
}

// sayTooNear asks for the instructions where an In is stated, with which the
// protector may have been tested.
func sayTooNear(s *site, n near) said {
	severity := analysis.Warning
	remedy := "move it at least " + thirtyFeet + " of conductor away, or use a type 2 protector, unless its instructions say that it was tested with its In and needs no distance"
	if s.protector.In > 0 {
		severity = analysis.Remark
		remedy = "its In of " + kiloamperes(s.protector.In) + " is stated: if it was tested with that it needs no distance; see its instructions"
	}
	return said{
		severity: severity,
		who:      s.on(),
		what:     fmt.Sprintf("is type 3 and only %s of conductor from %s, less than %s", feetBelow(n.distance), n.from, thirtyFeet),
		why:      "so near to the source more current can flow than type 3 is tested with",
		remedy:   remedy,
		source:   s.nfpaOn(typeThreePlace) + "; UL 1449",
		working:  s.distanceWorking(n),
	}
}

// feetBelow writes a length in feet, never rounded up to the bound that it is
// below.
func feetBelow(metres float64) string {
	const tenths = 10
	return analysis.FigureIn(math.Floor(metres/conductor.Foot*tenths)/tenths, "ft")
}

func (s *site) distanceWorking(n near) analysis.Working {
	lead := s.protector.Leads.Phase.Length
	return analysis.Working{
		{Label: "feeders from " + n.from, Result: n.wiring, Unit: "m", Source: fromSheet},
		{
			Label: "conductor to the protector", Formula: "l + its lead", Numbers: analysis.FigureIn(n.wiring, "m") + " + " + analysis.FigureIn(lead, "m"),
			Result: n.distance, Unit: "m", Source: fromSheet,
		},
		{Label: "least length", Result: typeThreeDistance, Unit: "m", Source: "30 ft, UL 1449 and " + s.nfpaOn(typeThreePlace)},
	}
}

// disconnect returns what the distance of a protector of type 3 is measured
// from, and its terminal on the way: the service disconnect, or else the first
// overcurrent device, or else the head of the zone. The name is empty where the
// head is neither source nor transformer: a generator, too, is a separately derived
// system, or stands for the service.
func (s *site) disconnect() (name string, at int) {
	head, devices := s.head(), s.devices()
	if !head.Kind.IsSource() && head.Kind != diagram.Transformer {
		return "", 0
	}
	if d, ok := serviceAbove(devices); ok {
		return "the service disconnect in " + d.name, d.at
	}
	if len(devices) > 0 {
		return "the overcurrent device of " + devices[0].name, devices[0].at
	}
	return s.Document.NameOf(head.ID), 0
}
