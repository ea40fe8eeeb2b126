package main

import (
	"strconv"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// surgesJSON is what surge --json prints.
type surgesJSON struct {
	Plan  string          `json:"plan"`
	Cases []surgeCaseJSON `json:"cases"`
}

type surgeCaseJSON struct {
	Name         string           `json:"name"`
	ID           string           `json:"id"`
	Path         string           `json:"path"`
	Wave         string           `json:"wave"`
	Voltage      float64          `json:"voltage"`
	Current      float64          `json:"current"`
	Part         string           `json:"part"`
	Step         float64          `json:"step"`
	Duration     float64          `json:"duration"`
	Delivered    float64          `json:"delivered"`
	Absorbed     float64          `json:"absorbed"`
	BalanceError float64          `json:"balanceError"`
	StepError    *float64         `json:"stepError,omitempty"`
	Buses        []busJSON        `json:"buses"`
	Protectors   []protectorJSON  `json:"protectors"`
	Assumptions  []assumptionJSON `json:"assumptions"`
}

type busJSON struct {
	ID       string     `json:"id"`
	Name     string     `json:"name"`
	Kind     string     `json:"kind"`
	Terminal string     `json:"terminal"`
	Judged   bool       `json:"judged"`
	Modes    []peakJSON `json:"modes"`
}

type peakJSON struct {
	Mode    string  `json:"mode"`
	Volts   float64 `json:"volts"`
	Time    float64 `json:"time"`
	Between string  `json:"between"`
}

type protectorJSON struct {
	ID    string     `json:"id"`
	Name  string     `json:"name"`
	Modes []dutyJSON `json:"modes"`
}

type dutyJSON struct {
	Mode   string  `json:"mode"`
	Amps   float64 `json:"amps"`
	Time   float64 `json:"time"`
	Charge float64 `json:"charge"`
	Energy float64 `json:"energy"`
}

type assumptionJSON struct {
	ID     string `json:"id"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

func surgesOf(s sheet, cases []assess.Case) surgesJSON {
	out := surgesJSON{Plan: s.doc.NameOf(s.plan.ID), Cases: []surgeCaseJSON{}}
	for _, c := range cases {
		out.Cases = append(out.Cases, caseOf(s, c))
	}
	return out
}

func caseOf(s sheet, c assess.Case) surgeCaseJSON {
	out := surgeCaseJSON{
		Name: surgeName(s, c.Surge), ID: string(c.Surge.ID), Path: string(c.Surge.Path), Wave: string(c.Surge.Wave),
		Voltage: c.Surge.Voltage, Current: c.Surge.Current, Part: string(c.Surge.Part),
		Step: c.Step, Duration: sixDigits(c.Duration), Delivered: sixDigits(c.Delivered), Absorbed: sixDigits(c.Absorbed), BalanceError: sixDigits(c.Balance),
		Buses: []busJSON{}, Protectors: []protectorJSON{}, Assumptions: []assumptionJSON{},
	}
	if c.Halving != nil {
		share := sixDigits(c.Halving.Share)
		out.StepError = &share
	}
	for _, bus := range allPlaces(s, c) {
		out.Buses = append(out.Buses, busOf(s, c, bus))
	}
	for _, p := range c.Circuit.Protectors {
		out.Protectors = append(out.Protectors, protectorOf(s, p.ID, c.Protectors[p.ID]))
	}
	for _, a := range c.Assumptions {
		out.Assumptions = append(out.Assumptions, assumptionJSON{string(a.Record), unit.Words(a.Text, s.convention), unit.Terms(a.Source, s.convention)})
	}
	return out
}

func busOf(s sheet, c assess.Case, bus int) busJSON {
	place, name := c.Circuit.Places[bus], c.Circuit.Network.Buses[bus].Name
	out := busJSON{ID: string(place.Record), Name: name, Kind: "feeder", Terminal: string(place.Port), Judged: place.Judged, Modes: []peakJSON{}}
	if part, ok := s.doc.Part(place.Record); ok {
		out.Kind = string(part.Kind)
	}
	for _, p := range c.Peaks[bus] {
		out.Modes = append(out.Modes, peakJSON{p.Mode.String(), sixDigits(p.Volts), sixDigits(p.At), p.Between})
	}
	return out
}

func protectorOf(s sheet, id diagram.ID, duties []analysis.Duty) protectorJSON {
	out := protectorJSON{ID: string(id), Name: s.doc.NameOf(id), Modes: []dutyJSON{}}
	for _, d := range duties {
		out.Modes = append(out.Modes, dutyJSON{d.Mode.String(), sixDigits(d.Amps), sixDigits(d.At), sixDigits(d.Charge), sixDigits(d.Energy)})
	}
	return out
}

// sixDigits drops what depends on how a processor rounds, and what no model of
// a building is worth.
func sixDigits(v float64) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil {
		return v
	}
	return out
}
