package report

import (
	"math"
	"strconv"
	"strings"

	"clampline/analysis/lead"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// words and number are columns of a text, as wide as so many letters, and of a number,
// which is empty where it is 0: not known.
func words[R any](name string, wide int, of func(R) string) table.Column[R] {
	return table.Column[R]{Name: name, Least: wide, Value: func(r R) any {
		if text := unit.VisibleLines(of(r)); text != "" {
			return text
		}
		return nil
	}}
}

func number[R any](name string, of func(R) float64) table.Column[R] {
	return table.Column[R]{Name: name, Value: func(r R) any {
		if v := of(r); v != 0 {
			return v
		}
		return nil
	}}
}

// guarded returns columns whose texts no spreadsheet takes for a formula.
func guarded[R any](columns []table.Column[R]) []table.Column[R] {
	var out []table.Column[R]
	for _, c := range columns {
		value := c.Value
		c.Value = func(r R) any {
			if text, ok := value(r).(string); ok && strings.ContainsAny(text[:min(1, len(text))], "=+-@\t\r\n") {
				return "'" + text
			}
			return value(r)
		}
		out = append(out, c)
	}
	return out
}

// perMode writes something of each mode that a protector has.
func (w *Work) perMode(p diagram.Protector, of func(diagram.Mode) string) string {
	var out []string
	for _, m := range diagram.Modes() {
		if p.Modes[m].Connected {
			out = append(out, of(m))
		}
	}
	return strings.Join(out, " / ")
}

// plainVolts writes a voltage without its unit, or a mark where it is not known.
func plainVolts(v float64) string {
	if v == 0 {
		return "?"
	}
	return strconv.FormatFloat(rounded3(v), 'f', -1, 64)
}

// ratingName is which voltage a nameplate states: VPR or Up.
func ratingName(p diagram.Protector) string {
	switch {
	case p.Modes == [diagram.ModeCount]diagram.ModeRating{}:
		return ""
	case p.Rating == diagram.Up:
		return string(diagram.Up)
	}
	return string(diagram.VPR)
}

func systemText(s diagram.System) string {
	if s.Known() {
		return s.String()
	}
	return ""
}

func rounded3(v float64) float64 { return math.Round(v*1e3) / 1e3 }

// used is a lead, or none where the protector has no use for it.
func used(l diagram.Lead, is bool) diagram.Lead {
	if is {
		return l
	}
	return diagram.Lead{}
}

// inRule is a length as one reads it off a rule: inches, or millimetres.
func (w *Work) inRule(m float64) float64 {
	if w.Convention == unit.IEC {
		return math.Round(m * 1e3)
	}
	return math.Round(m/lead.Inch*100) / 100
}

// mostOf returns the greatest length of a lead, m: that of the plan and the room beyond
// it, down to what can be read off a rule, half an inch or 10 mm.
func (w *Work) mostOf(l diagram.Lead, room lead.Room) float64 {
	step := lead.Inch / 2
	if w.Convention == unit.IEC {
		step = 0.01
	}
	if l.Length == 0 {
		return 0
	}
	const rounding = 1e-9
	return max(l.Length, math.Floor((l.Length+room.By+rounding)/step)*step)
}

func (w *Work) area(a float64) string {
	if a == 0 {
		return ""
	}
	return unit.Format(a, unit.Area, w.Convention)
}

// mounting says where a protector sits, and where there is room for short leads.
func mounting(p diagram.Protector, bus diagram.Part) string {
	out := "in the board"
	switch {
	case bus.Kind == diagram.Load:
		out = "at the equipment"
	case p.External:
		out = "own enclosure"
	}
	if bus.Board.Mounting != "" {
		out += "; board: " + string(bus.Board.Mounting)
	}
	if told := bus.Board.ShortLead; told != "" {
		out += "; room for short leads: " + told
	}
	return out
}
