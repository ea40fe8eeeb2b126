package diagram

// Practice is whose rules a sheet is checked by. The empty value stands for
// those that the earthing of its sources suggests.
type Practice string

// The practices.
const (
	NECPractice Practice = "NEC" // NFPA 70 and UL 1449
	IECPractice Practice = "IEC" // IEC 60364 and IEC 61643-11
)

// NECEdition is the year of an edition of NFPA 70. The empty value stands for
// the newest that the program knows.
type NECEdition string

// The editions of NFPA 70.
const (
	NEC2017 NECEdition = "2017"
	NEC2020 NECEdition = "2020"
	NEC2023 NECEdition = "2023"
)

// NECEditions returns every known edition, the newest first.
func NECEditions() []NECEdition { return []NECEdition{NEC2023, NEC2020, NEC2017} }

// UcTable is which form of the table of the least continuous voltage of
// IEC 60364-5-53 clause 534 counts: on IT systems they differ. The empty value
// stands for the newer one.
type UcTable string

// The forms of the table.
const (
	UcNewer UcTable = "newer" // from 2015 on
	UcOlder UcTable = "older" // before
)

// RiskMethod is how the need for protection is found by IEC 60364-4-44 clause
// 443. The empty value stands for the calculated risk level.
type RiskMethod string

// The methods.
const (
	ByRiskLevel RiskMethod = "calculated risk level" // IEC 60364-4-44:2007 with amendment 1:2015
	ByDefault   RiskMethod = "always"                // protected unless the owner declines, as BS 7671:2018 amendment 2:2022 asks
)

// FaultMethod is how fault currents are added up. The empty value stands for
// the complex sum.
type FaultMethod string

// The methods.
const (
	ComplexSum   FaultMethod = "complex sum"
	PointToPoint FaultMethod = "point to point" // magnitudes alone, by the constants of handbooks
)

// SurgeEdition is the year of an edition of IEEE C62.41. The empty value stands for the
// newer one.
type SurgeEdition string

// The editions. They disagree on what arrives at a service.
const (
	Surges2002 SurgeEdition = "2002"
	Surges1991 SurgeEdition = "1991"
)

// Codes says by which rules a sheet is checked. The zero value takes the usual
// ones.
type Codes struct {
	Practice  Practice
	Surges    SurgeEdition
	NEC       NECEdition
	Uc        UcTable
	Risk      RiskMethod
	Fault     FaultMethod
	Tolerance float64 // per cent that the impedance of a transformer may lie below its nameplate; 0 takes the nameplate
}

// FollowsIEC reports whether the rules of IEC count, given whether the earthing
// suggests them.
func (c Codes) FollowsIEC(suggested bool) bool {
	if c.Practice == "" {
		return suggested
	}
	return c.Practice == IECPractice
}
