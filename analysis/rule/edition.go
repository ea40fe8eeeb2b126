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
// routing; of 2023 242.8 and 242.12. The others are from memory. An edition that
// is not there is known by its article alone: in 2023 the sections of article 242
// were numbered anew.
var sections = map[topic]map[diagram.NECEdition]string{
	listing:        {diagram.NEC2017: "285.6", diagram.NEC2020: "242.8"},
	shortCircuit:   {diagram.NEC2017: "285.7", diagram.NEC2020: "242.10", diagram.NEC2023: "242.8"},
	unsuited:       {diagram.NEC2017: "285.3", diagram.NEC2020: "242.6", diagram.NEC2023: "242.12"},
	typeTwoPlace:   {diagram.NEC2017: "285.24", diagram.NEC2020: "242.14"},
	typeThreePlace: {diagram.NEC2017: "285.25", diagram.NEC2020: "242.16"},
	everyLine:      {diagram.NEC2017: "285.4", diagram.NEC2020: "242.20"},
	leadRouting:    {diagram.NEC2017: "285.12", diagram.NEC2020: "242.24"},
	leadSize:       {diagram.NEC2017: "285.26", diagram.NEC2020: "242.28"},
	steelRaceway:   {diagram.NEC2017: "285.28", diagram.NEC2020: "242.32"},
}

// nfpaOn names the section on a topic in the edition of NFPA 70 that counts, or
// the article where the section is not known, and says to check it.
func (s *sheet) nfpaOn(t topic) string {
	if section, ok := sections[t][s.nec()]; ok {
		return s.nfpa(section)
	}
	return "NFPA 70:" + string(s.nec()) + " article 242 (" + checkEdition + ")"
}
