package details

import (
	"strings"
	"testing"

	"clampline/diagram"
)

// The need for protection is told of a supply under the rules of IEC, and
// follows its exposure at once. The figure is that of the formula for 0.4 km of
// low and 0.6 km of high voltage overhead line and one flash per km² and year:
// 85 / 1.04.
func TestNeedForProtection(t *testing.T) {
	s := newShower(t, house(t))
	s.faulty()
	s.show("supply-1")
	s.wants(true, "Working", "No voltage or current is known here yet.")
	s.wants(false, "Protection is needed")
	s.codes(diagram.Codes{Practice: diagram.IECPractice})
	s.wants(true, "Working", "Grid, by its exposure", "Protection is needed: ", "the lightning flash density is not entered")
	s.exposed(diagram.Exposure{Occupancy: diagram.Dwelling, FlashDensity: 1, LowOverhead: 400, HighOverhead: 600})
	s.wants(true, "Protection is needed: the calculated risk level is 81.7", "Risk length L_P", "IEC 60364-4-44")
	s.exposed(diagram.Exposure{Occupancy: diagram.Dwelling, FlashDensity: 1, LowCable: 400, HighCable: 600, Surroundings: diagram.Urban})
	s.wants(true, "Protection is not needed: the calculated risk level is 1 63")
	s.codes(diagram.Codes{Practice: diagram.IECPractice, Risk: diagram.ByDefault})
	s.wants(true, "Protection is needed: ")
	s.wants(false, "risk level is")
	s.show("panel-1")
	s.wants(false, "by its exposure")
}

func (s *shower) codes(codes diagram.Codes) {
	s.change(func(tx *diagram.Tx) {
		info := tx.Document().Info()
		info.Codes = codes
		tx.SetInfo(info)
	})
}

func (s *shower) exposed(e diagram.Exposure) {
	s.change(func(tx *diagram.Tx) {
		part, _ := tx.Part("supply-1")
		part.Exposure = e
		tx.SetPart(part)
	})
}

func (s *shower) change(f func(*diagram.Tx)) {
	s.t.Helper()
	if err := s.Change("alter", func(tx *diagram.Tx) error { f(tx); return nil }); err != nil {
		s.t.Fatal(err)
	}
}

// Fields of the other practice are not shown.
func TestRowsFollowThePractice(t *testing.T) {
	s := newShower(t, house(t))
	nec, iec := []string{"Used for"}, []string{"Surroundings", "Lightning flashes", "Lines upstream"}
	for _, row := range []struct {
		name      string
		codes     diagram.Codes
		has, lack []string
	}{
		{"as the earthing suggests", diagram.Codes{}, nec, iec},
		{"IEC", diagram.Codes{Practice: diagram.IECPractice}, iec, nec},
		{"NEC", diagram.Codes{Practice: diagram.NECPractice}, nec, iec},
	} {
		t.Run(row.name, func(t *testing.T) {
			s.t = t
			s.codes(row.codes)
			s.show("supply-1")
			text := s.words()
			s.show("panel-1")
			text += s.words()
			for _, words := range row.has {
				if !strings.Contains(text, words) {
					t.Errorf("the forms lack %q", words)
				}
			}
			for _, words := range row.lack {
				if strings.Contains(text, words) {
					t.Errorf("the forms have %q", words)
				}
			}
			s.edit.Select()
			s.show()
			s.wants(row.codes.Practice != diagram.IECPractice, "NEC edition")
			s.wants(row.codes.Practice == diagram.IECPractice, "Need for protection", "Least Uc")
		})
	}
}
