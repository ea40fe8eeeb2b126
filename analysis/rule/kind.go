package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// lineSideTap is where NFPA 70 lists what may be connected ahead of the service
// disconnect.
const lineSideTap = "230.82"

// typeRules compare the type or class of a protector with its place.
func typeRules() []record[*site] {
	return about(analysis.SubjectPlace,
		tellsIf("place.type unknown", (*site).typeUnknown, sayTypeUnknown),
		tellsIf("place.other practice", (*site).typeOfOthers, sayTypeOfOthers),
		tellsOne("place.line side", (*site).onLineSide, sayLineSide),
		tellsOne("place.line side bare", (*site).bareOnLineSide, sayBareOnLineSide),
		tellsOne("place.unguarded", (*site).unguarded, sayUnguarded).unless("place.line side"),
		tellsIf("place.other building", (*site).otherStructure, sayOtherStructure).unless("place.line side", "place.unguarded"),
		tellsIf("place.switchboard", (*site).onSwitchboard, sayOnSwitchboard),
		tellsOne("place.too near", (*site).tooNear, sayTooNear).unless("place.switchboard"),
		tellsOne("place.large branch", largeAheadOf(diagram.Type3), sayLargeBranch),
		tellsOne("place.large ahead", largeAheadOf(diagram.Type2), sayLargeAhead),
		tellsOne("place.residual device", (*site).residualAhead, sayResidualAhead),
		tellsIf("place.class I", (*site).classOneWanted, sayClassOneWanted),
		tellsIf("place.overhead line", (*site).classOneBetter, sayClassOneBetter).unless("place.class I"),
		tellsIf("place.class III alone", (*site).classThreeAlone, sayClassThreeAlone),
	)
}

// wrongPlace reports whether a protector may not stand on its place by its type.
// Of a place that is no part of a sheet it is not known.
func (s *site) wrongPlace() bool {
	if s.node == nil {
		return false
	}
	line, _ := s.onLineSide()
	_, bare := s.bareOnLineSide()
	open, _ := s.unguarded()
	return line.certain || bare || open.certain || s.classOneWanted()
}

// ifCertain is the severity of what must not be, and of what may yet be allowed.
func ifCertain(certain bool) analysis.Severity {
	if certain {
		return analysis.Error
	}
	return analysis.Warning
}

// replaceIf is the change to another protector where the one that is there must
// not be.
func replaceIf(certain bool) analysis.Mend {
	if certain {
		return replaceIt
	}
	return analysis.Mend{}
}

func (s *site) typeUnknown() bool { return s.protector.Type == "" }

func sayTypeUnknown(s *site) said {
	word := s.byRules("class", "type")
	return said{
		severity: analysis.Remark,
		what:     "The " + word + " of " + s.on() + " is not stated",
		why:      "the " + word + " decides where a protector may stand",
		remedy:   "read the " + word + " off the nameplate and type it in",
		source:   s.byRules("IEC 61643-11", "UL 1449"),
	}
}

// typeOfOthers finds a class where types count, and the other way round.
func (s *site) typeOfOthers() bool {
	return s.protector.Type != "" && isIEC(s.protector.Type) != s.iec
}

func sayTypeOfOthers(s *site) said {
	word := s.byRules("class", "type")
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     fmt.Sprintf("is %s, and its %s is not stated", s.protector.Type, word),
		why: s.byRules("IEC 60364 goes by the test classes of IEC 61643-11; a type of UL 1449 says nothing of them",
			"NFPA 70 asks for a listed protector, and goes by the types of UL 1449; a test class of IEC 61643-11 is none of them"),
		remedy: "read the " + word + " off the nameplate, or " + s.byRules("use a protector with a class", "take a listed protector"),
		source: s.byRules(classes, s.nfpaOn(listing)),
	}
}

// lineSide is a place ahead of the service disconnect.
type lineSide struct {
	service string // the board with the service disconnect
	certain bool   // what stands there is no part of listed equipment: it has no overcurrent device of its own
}

// onLineSide finds, by NFPA 70, a protector between the supply and the service
// disconnect that is neither of type 1 nor tested like it.
func (s *site) onLineSide() (lineSide, bool) {
	p := s.protector
	if s.iec || p.Type == "" || p.Type == diagram.Type1 || isIEC(p.Type) && impulseTested(p) {
		return lineSide{}, false
	}
	service := s.serviceBehind()
	return lineSide{service, service != "" && p.Breaker.Rated <= 0}, service != ""
}

func sayLineSide(s *site, l lineSide) said {
	return said{
		severity: ifCertain(l.certain),
		who:      s.on(),
		what:     fmt.Sprintf("is %s and stands ahead of the service disconnect in %s", s.protector.Type, l.service),
		why:      "on the line side only a type 1 protector is allowed; a type 2 protector too, as part of listed equipment with an overcurrent device and a disconnect of its own",
		remedy:   "use a type 1 protector, or move it to the load side of the service disconnect",
		source:   s.nfpaOn(s.placeTopic()) + "; NFPA 70 section " + lineSideTap + " " + recalled,
		mend:     replaceIf(l.certain),
	}
}

// placeTopic is the topic on the place of the protector's type.
func (s *site) placeTopic() topic {
	if s.pointOfUse() {
		return typeThreePlace
	}
	return typeTwoPlace
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

// bareOnLineSide is onLineSide by IEC, where an overcurrent device ahead of the
// protector is enough, whichever that is.
func (s *site) bareOnLineSide() (service string, found bool) {
	p := s.protector
	if !s.iec || p.Type == "" || p.Type == diagram.Type1 || impulseTested(p) || p.Breaker.Rated > 0 || len(s.devices()) > 0 {
		return "", false
	}
	service = s.serviceBehind()
	return service, service != ""
}

func sayBareOnLineSide(s *site, service string) said {
	return said{
		severity: analysis.Error,
		who:      s.on(),
		what: fmt.Sprintf("is %s and stands ahead of the main switch in %s, with no overcurrent device between it and %s",
			s.protector.Type, service, s.Document.NameOf(s.head().ID)),
		why:    "when it fails nothing on the sheet clears its short circuit, and it may burst",
		remedy: "move it behind the main switch, or give it a fuse or breaker as its instructions ask; where the fuses of the supply stand ahead of it, draw them",
		source: backupIEC,
		mend:   replaceIt,
	}
}

// wantsDevice reports whether NFPA 70 wants an overcurrent device ahead of the
// protector. At a generator it is not asked: its breaker is often part of it.
func (s *site) wantsDevice() bool {
	p, head := s.protector, s.head().Kind
	return !s.iec && (p.Type == diagram.Type2 || p.Type == diagram.Type3) && (head == diagram.Supply || head == diagram.Transformer)
}

// unguarded is a place with no overcurrent device between it and the head of its
// zone.
type unguarded struct {
	head    diagram.Part
	derived bool // it is a transformer
	certain bool // the protector has no device of its own, and is on no board, of which merely the main breaker may not be stated
}

// unguarded finds that no overcurrent device stands ahead. A breaker of its own
// in a board is one.
func (s *site) unguarded() (unguarded, bool) {
	if !s.wantsDevice() || len(s.devices()) > 0 {
		return unguarded{}, false
	}
	head, own, onBoard := s.head(), s.protector.Breaker.Rated > 0, s.part.Kind.IsBoard()
	derived := head.Kind == diagram.Transformer
	return unguarded{head, derived, !own && !onBoard}, !own || !derived && !onBoard
}

func sayUnguarded(s *site, u unguarded) said {
	why := "on the line side of the service disconnect only a type 1 protector is allowed: it needs no overcurrent device ahead"
	remedy := "use a type 1 protector, or move it to the load side of the service disconnect"
	if u.derived {
		why = "at a separately derived system it belongs on the load side of the first overcurrent device, and may rely on it to clear its failure"
		remedy = "use a type 1 protector, or give it a breaker"
	}
	if s.part.Kind.IsBoard() {
		remedy += "; if " + s.place.name() + " has a main breaker, state it"
	}
	return said{
		severity: ifCertain(u.certain),
		who:      s.on(),
		what:     fmt.Sprintf("is %s, and no overcurrent device stands between it and %s", s.protector.Type, s.Document.NameOf(u.head.ID)),
		why:      why,
		remedy:   remedy,
		source:   s.nfpaOn(s.placeTopic()),
		mend:     replaceIf(u.certain),
	}
}

// otherStructure finds a protector in the first board of another building for
// which no overcurrent device is known there.
func (s *site) otherStructure() bool {
	board := s.part.Board
	return s.wantsDevice() && board.Structure && board.MainBreaker <= 0 && !board.Service && s.protector.Breaker.Rated <= 0
}

func sayOtherStructure(s *site) said {
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     "is " + string(s.protector.Type) + ", and neither a main breaker there nor a breaker of its own is stated",
		why:      "in another building or structure it belongs on the load side of the first overcurrent device of that building",
		remedy:   "state the breaker, or give it one; a type 1 protector needs none",
		source:   s.nfpaOn(s.placeTopic()),
	}
}
