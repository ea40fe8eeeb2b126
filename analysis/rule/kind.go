package rule

import (
	"fmt"
	"math"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// typeThreeDistance is how much conductor UL 1449 and NFPA 70 want between the
// service disconnect and a protector of type 3, m: 30 ft, which NFPA 70 rounds
// to 10 m.
const (
	typeThreeDistance = 9.144
	thirtyFeet        = "30\u00a0ft"
)

// lineSideTap is where NFPA 70 lists what may be connected ahead of the service
// disconnect.
const lineSideTap = "230.82"

// typeRules compares the type or class of a protector with its place.
func typeRules(s *site) []analysis.Finding {
	switch {
	case s.protector.Type == "":
		return s.typeUnknown()
	case isIEC(s.protector.Type) != s.iec:
		return append(s.typeOfOthers(), s.onLineSide()...)
	case s.iec:
		return slices.Concat(s.classPlace(), s.onLineSide(), s.aheadTooSmall())
	case s.protector.Type == diagram.Type1:
		return s.aheadTooSmall()
	}
	out := append(s.typePlace(), s.typeThree()...)
	out = append(out, s.aheadTooLarge()...)
	return append(out, s.aheadTooSmall()...)
}

// placeFinding is a finding on the place without a working.
func placeFinding(severity analysis.Severity, what, why, remedy, source string) []analysis.Finding {
	return []analysis.Finding{{
		Severity: severity, Subject: analysis.SubjectPlace, What: what, Why: why, Remedy: remedy, Source: source,
	}}
}

func (s *site) typeUnknown() []analysis.Finding {
	word, standard := "type", "UL 1449"
	if s.iec {
		word, standard = "class", "IEC 61643-11"
	}
	return placeFinding(analysis.Remark,
		fmt.Sprintf("The %s of %s is not stated", word, s.on()),
		fmt.Sprintf("the %s decides where a protector may stand", word),
		fmt.Sprintf("read the %s off the nameplate and type it in", word),
		standard)
}

// typeOfOthers reports a class where types count, and the other way round.
func (s *site) typeOfOthers() []analysis.Finding {
	if s.iec {
		return placeFinding(analysis.Remark,
			fmt.Sprintf("%s is %s, and its class is not stated", s.on(), s.protector.Type),
			"IEC 60364 goes by the test classes of IEC 61643-11; a type of UL 1449 says nothing of them",
			"read the class off the nameplate, or use a protector with a class",
			classes)
	}
	return placeFinding(analysis.Remark,
		fmt.Sprintf("%s is %s, and its type is not stated", s.on(), s.protector.Type),
		"NFPA 70 asks for a listed protector, and goes by the types of UL 1449; a test class of IEC 61643-11 is none of them",
		"read the type off the nameplate, or take a listed protector",
		s.nfpaOn(listing))
}

// typePlace checks a protector of type 2 or 3: an overcurrent device stands
// ahead of it, at a service that of the service disconnect.
func (s *site) typePlace() []analysis.Finding {
	head := s.head().Kind
	if head != diagram.Supply && head != diagram.Transformer {
		return nil // the breaker of a generator is often part of it
	}
	if service := s.serviceBehind(); service != "" {
		return s.lineSide(service)
	}
	if len(s.devices()) == 0 {
		return s.unguarded()
	}
	return s.otherStructure()
}

// serviceBehind returns the name of the board with the service disconnect ahead
// of which the protector stands, or nothing.
func (s *site) serviceBehind() string {
	head, devices := s.head().Kind, s.devices()
	ofBoard := slices.ContainsFunc(devices, func(d device) bool { return d.board })
	if ofBoard || head != diagram.Supply && (head != diagram.Transformer || len(devices) > 0) {
		return ""
	}
	return s.serviceBelow()
}

// onLineSide looks at where a protector stands whose place the types of UL 1449
// do not tell: one of a class, or of a type on a sheet of IEC. There an
// overcurrent device ahead of it is enough, whichever that is.
func (s *site) onLineSide() []analysis.Finding {
	if s.protector.Type == diagram.Type1 || impulseTested(s.protector) {
		return nil
	}
	service, guarded := s.serviceBehind(), len(s.devices()) > 0 || s.protector.Breaker.Rated > 0
	switch {
	case service == "" || s.iec && guarded:
		return nil
	case !s.iec:
		return s.lineSide(service)
	}
	return placeFinding(analysis.Error,
		fmt.Sprintf("%s is %s and stands ahead of the main switch in %s, with no overcurrent device between it and %s", s.on(), s.protector.Type, service, s.Document.NameOf(s.head().ID)),
		"when it fails nothing on the sheet clears its short circuit, and it may burst",
		"move it behind the main switch, or give it a fuse or breaker as its instructions ask; where the fuses of the supply stand ahead of it, draw them",
		backupIEC)
}

// lineSide reports a protector that stands between the supply and the service
// disconnect. It is certain unless it has an overcurrent device of its own: it may
// then be part of listed equipment.
func (s *site) lineSide(service string) []analysis.Finding {
	severity := analysis.Error
	if s.protector.Breaker.Rated > 0 {
		severity = analysis.Warning
	}
	return placeFinding(severity,
		fmt.Sprintf("%s is %s and stands ahead of the service disconnect in %s", s.on(), s.protector.Type, service),
		"on the line side only a type 1 protector is allowed; a type 2 protector too, as part of listed equipment with an overcurrent device and a disconnect of its own",
		"use a type 1 protector, or move it to the load side of the service disconnect",
		s.nfpaOn(s.placeTopic())+"; NFPA 70 section "+lineSideTap+" "+recalled)
}

// placeTopic is the topic on the place of the protector's type.
func (s *site) placeTopic() topic {
	if s.pointOfUse() {
		return typeThreePlace
	}
	return typeTwoPlace
}

// unguarded reports that no overcurrent device stands ahead. A breaker of its
// own in a board is one; the main breaker of a board may merely not be stated.
func (s *site) unguarded() []analysis.Finding {
	head := s.head()
	own, derived := s.protector.Breaker.Rated > 0, head.Kind == diagram.Transformer
	if own && (derived || s.part.Kind.IsBoard()) {
		return nil
	}
	severity := analysis.Error
	if own || s.part.Kind.IsBoard() {
		severity = analysis.Warning
	}
	why := "on the line side of the service disconnect only a type 1 protector is allowed: it needs no overcurrent device ahead"
	if derived {
		why = "at a separately derived system it belongs on the load side of the first overcurrent device, and may rely on it to clear its failure"
	}
	return placeFinding(severity,
		fmt.Sprintf("%s is %s, and no overcurrent device stands between it and %s", s.on(), s.protector.Type, s.Document.NameOf(head.ID)),
		why,
		s.unguardedRemedy(derived),
		s.nfpaOn(s.placeTopic()))
}

func (s *site) unguardedRemedy(derived bool) string {
	remedy := "use a type 1 protector, or give it a breaker"
	if !derived {
		remedy = "use a type 1 protector, or move it to the load side of the service disconnect"
	}
	if s.part.Kind.IsBoard() {
		remedy += fmt.Sprintf("; if %s has a main breaker, state it", s.place.name())
	}
	return remedy
}

// otherStructure reports a protector in the first board of another building for
// which no overcurrent device is known there.
func (s *site) otherStructure() []analysis.Finding {
	if board := s.part.Board; !board.Structure || board.MainBreaker > 0 || board.Service || s.protector.Breaker.Rated > 0 {
		return nil
	}
	return placeFinding(analysis.Remark,
		fmt.Sprintf("%s is %s, and neither a main breaker there nor a breaker of its own is stated", s.on(), s.protector.Type),
		"in another building or structure it belongs on the load side of the first overcurrent device of that building",
		"state the breaker, or give it one; a type 1 protector needs none",
		s.nfpaOn(s.placeTopic()))
}

// typeThree checks that a protector of type 3 stands at the point of use.
func (s *site) typeThree() []analysis.Finding {
	if s.protector.Type != diagram.Type3 {
		return nil
	}
	if s.part.Kind == diagram.Switchboard {
		return placeFinding(analysis.Warning,
			fmt.Sprintf("%s is type 3 and stands on a switchboard", s.on()),
			"type 3 is for the point of use: behind the breaker of a branch circuit, up to the equipment",
			"use a type 1 or 2 protector here",
			s.nfpaOn(typeThreePlace))
	}
	return s.tooNear()
}

// tooNear checks the length of conductor between a protector of type 3 and the
// disconnect of its service or separately derived system. Where that is not on
// the sheet it is measured from the source, which makes it longer.
func (s *site) tooNear() []analysis.Finding {
	from, start := s.disconnect()
	if from == "" {
		return nil
	}
	wiring, measured := s.wiring(start)
	distance := analysis.ToMicrometre(wiring + s.protector.Leads.Phase.Length)
	if distance >= typeThreeDistance || !measured {
		return nil
	}
	out := placeFinding(analysis.Warning,
		fmt.Sprintf("%s is type 3 and only %s of conductor from %s, less than %s", s.on(), feetBelow(distance), from, thirtyFeet),
		"so near to the source more current can flow than type 3 is tested with",
		"move it at least "+thirtyFeet+" of conductor away, or use a type 2 protector, unless its instructions say that it was tested with its In and needs no distance",
		s.nfpaOn(typeThreePlace)+"; UL 1449")
	if s.protector.In > 0 {
		out[0].Severity = analysis.Remark
		out[0].Remedy = fmt.Sprintf("its In of %s is stated: if it was tested with that it needs no distance; see its instructions", kiloamperes(s.protector.In))
	}
	out[0].Working = s.distanceWorking(from, wiring, distance)
	return out
}

// feetBelow writes a length in feet, never rounded up to the bound that it is
// below.
func feetBelow(metres float64) string {
	const foot, tenths = 0.3048, 10
	return analysis.FigureIn(math.Floor(metres/foot*tenths)/tenths, "ft")
}

func (s *site) distanceWorking(from string, wiring, distance float64) analysis.Working {
	lead := s.protector.Leads.Phase.Length
	return analysis.Working{
		{Label: "feeders from " + from, Result: wiring, Unit: "m", Source: fromSheet},
		{
			Label: "conductor to the protector", Formula: "l + its lead", Numbers: analysis.FigureIn(wiring, "m") + " + " + analysis.FigureIn(lead, "m"),
			Result: distance, Unit: "m", Source: fromSheet,
		},
		{Label: "least length", Result: typeThreeDistance, Unit: "m", Source: "30 ft, UL 1449 and " + s.nfpaOn(typeThreePlace)},
	}
}

// disconnect returns what the distance of a protector of type 3 is measured
// from, and its terminal on the way: the service disconnect, or else the first
// overcurrent device, or else the head of the zone. The name is empty where the
// head is neither supply nor transformer.
func (s *site) disconnect() (name string, at int) {
	head, devices := s.head(), s.devices()
	if head.Kind != diagram.Supply && head.Kind != diagram.Transformer {
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
