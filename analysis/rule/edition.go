package rule

import (
	"cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// The words for sources that this package uses.
const (
	checkEdition   = analysis.CheckEdition
	commonPractice = analysis.CommonPractice
	fromSheet      = analysis.FromSheet
	recalled       = analysis.Recalled
)

// nec returns the edition of NFPA 70 that counts.
func (s *sheet) nec() diagram.NECEdition { return cmp.Or(s.codes.NEC, diagram.NEC2023) }

// nfpa names a section of the edition of NFPA 70 that counts, and says to check
// it: sub-numbers moved between editions.
func (s *sheet) nfpa(section string) string {
	return "NFPA 70:" + string(s.nec()) + " section " + section + " (" + checkEdition + ")"
}

// byRules returns the text that goes with the rules that count.
func (s *sheet) byRules(iec, northAmerica string) string {
	if s.iec {
		return iec
	}
	return northAmerica
}

// topic is a rule of NFPA 70 on protectors whose section moved between the
// editions.
type topic uint8

// The topics.
const (
	listing        topic = iota // a protector must be listed
	shortCircuit                // marked with its SCCR, and not where more can flow
	unsuited                    // systems and voltages for which it is not made
	typeTwoPlace                // where a protector of type 2 may stand
	typeThreePlace              // and one of type 3
	everyLine                   // one for each ungrounded conductor
	leadRouting                 // leads no longer than necessary, no needless bends
	leadSize                    // least size of the leads
	steelRaceway                // the earth lead in a ferrous raceway
)

// sections are the sections by topic and edition. Named by public copies and
// summaries of the code are, of 2017, 285.3, 285.4, 285.6, 285.7 and 285.12, and
// 285.24 to 285.28 of the edition before; of 2020 the types, SCCR, listing and
// routing; of 2023 242.8, 242.12 and, for the types, 242.14 and 242.16. The others
// are from memory: of 2023 that the listing took the usual place of it, and that
// what stands behind the types kept its number.
var sections = map[topic]map[diagram.NECEdition]string{
	listing:        {diagram.NEC2017: "285.6", diagram.NEC2020: "242.8", diagram.NEC2023: "242.6"},
	shortCircuit:   {diagram.NEC2017: "285.7", diagram.NEC2020: "242.10", diagram.NEC2023: "242.8"},
	unsuited:       {diagram.NEC2017: "285.3", diagram.NEC2020: "242.6", diagram.NEC2023: "242.12"},
	typeTwoPlace:   {diagram.NEC2017: "285.24", diagram.NEC2020: "242.14", diagram.NEC2023: "242.14"},
	typeThreePlace: {diagram.NEC2017: "285.25", diagram.NEC2020: "242.16", diagram.NEC2023: "242.16"},
	everyLine:      {diagram.NEC2017: "285.4", diagram.NEC2020: "242.20", diagram.NEC2023: "242.20"},
	leadRouting:    {diagram.NEC2017: "285.12", diagram.NEC2020: "242.24", diagram.NEC2023: "242.24"},
	leadSize:       {diagram.NEC2017: "285.26", diagram.NEC2020: "242.28", diagram.NEC2023: "242.28"},
	steelRaceway:   {diagram.NEC2017: "285.28", diagram.NEC2020: "242.32", diagram.NEC2023: "242.32"},
}

// nfpaOn names the section on a topic in the edition of NFPA 70 that counts, and
// says to check it.
func (s *sheet) nfpaOn(t topic) string { return s.nfpa(sections[t][s.nec()]) }

// The clauses of IEC 60364-5-53 on protectors: of amendment 2 of 2015 to the third
// edition, which the edition of 2019 took over. Public summaries of HD 60364-5-534
// and of what countries made of it name 534.4.4.2, 534.4.8, 534.4.9 and 534.4.10;
// the others are from memory.
const (
	clauses          = "IEC 60364-5-53:2001 with amendment 2:2015, clause "
	classes          = clauses + "534.4.1 " + recalled // which class belongs where
	connectionTypes  = clauses + "534.4.3 " + recalled // between which conductors a protector is connected
	levelOfProtector = clauses + "534.4.4.2 (" + checkEdition + ")"
	newerUc          = clauses + "534.4.4.3 " + recalled
	shortCircuitIEC  = clauses + "534.4.4.5 " + recalled
	followIEC        = clauses + "534.4.4.6 " + recalled
	backupIEC        = clauses + "534.4.5 " + recalled // an overcurrent device for each
	residualDevices  = clauses + "534.4.7 " + recalled
	leadsIEC         = clauses + "534.4.8 (" + checkEdition + ")"
	protectedLength  = analysis.ProtectedLength
	leadSizesIEC     = clauses + "534.4.10 " + recalled
)
