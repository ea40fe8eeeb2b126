package rule

import (
	"testing"

	"clampline/diagram"
)

// The sections that public summaries of the code name, and the article where
// none does.
func TestSections(t *testing.T) {
	tests := []struct {
		name    string
		edition diagram.NECEdition
		topic   topic
		want    string
	}{
		{"listing", diagram.NEC2020, listing, "NFPA 70:2020 section 242.8 (check your edition)"},
		{"SCCR", diagram.NEC2020, shortCircuit, "NFPA 70:2020 section 242.10 (check your edition)"},
		{"type 2", diagram.NEC2020, typeTwoPlace, "NFPA 70:2020 section 242.14 (check your edition)"},
		{"type 3", diagram.NEC2020, typeThreePlace, "NFPA 70:2020 section 242.16 (check your edition)"},
		{"unsuited systems", diagram.NEC2023, unsuited, "NFPA 70:2023 section 242.12 (check your edition)"},
		{"routing, before article 242", diagram.NEC2017, leadRouting, "NFPA 70:2017 section 285.12 (check your edition)"},
		{"size, before article 242", diagram.NEC2017, leadSize, "NFPA 70:2017 section 285.26 (check your edition)"},
		{"every line, before article 242", diagram.NEC2017, everyLine, "NFPA 70:2017 section 285.4 (check your edition)"},
		{"SCCR, before article 242", diagram.NEC2017, shortCircuit, "NFPA 70:2017 section 285.7 (check your edition)"},
		{"SCCR, numbered anew", diagram.NEC2023, shortCircuit, "NFPA 70:2023 section 242.8 (check your edition)"},
		{"numbered anew", diagram.NEC2023, listing, "NFPA 70:2023 section 242.6 (check your edition)"},
		{"no edition is the newest", "", typeTwoPlace, "NFPA 70:2023 section 242.14 (check your edition)"},
	}
	for _, test := range tests {
		s := &sheet{codes: diagram.Codes{NEC: test.edition}}
		if got := s.nfpaOn(test.topic); got != test.want {
			t.Errorf("%s: got %s, want %s", test.name, got, test.want)
		}
	}
}

// Each topic has a section in every edition.
func TestEveryTopicHasSections(t *testing.T) {
	for topic := listing; topic <= steelRaceway; topic++ {
		for _, edition := range diagram.NECEditions() {
			if sections[topic][edition] == "" {
				t.Errorf("topic %d has no section in %s", topic, edition)
			}
		}
	}
}
