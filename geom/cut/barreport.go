package cut

import "math"

// BarReport is the bars as report.json holds them: lengths mm, angles degrees, six decimals.
type BarReport struct {
	KerfMM float64          `json:"kerf_mm"`
	TrimMM float64          `json:"trim_mm"`
	Jobs   []barJobReport   `json:"jobs"`
	Scarfs []barScarfReport `json:"scarfs"`
}

type barJobReport struct {
	Of       string           `json:"of"`
	DepthMM  float64          `json:"depth_mm"`
	WidthMM  float64          `json:"width_mm"`
	Material string           `json:"material"`
	Bars     int              `json:"bars"`
	Cost     float64          `json:"cost"`
	Bound    float64          `json:"bound"` // of bars, or where they have prices, of cost
	Least    bool             `json:"least"` // proved to need no more than any other
	Buy      []barBuyReport   `json:"buy"`
	Pieces   []barPieceReport `json:"pieces"`
	Sawn     []barSawnReport  `json:"sawn"`
}

type barBuyReport struct {
	LengthMM float64 `json:"length_mm"`
	Count    int     `json:"count"`
	Price    float64 `json:"price"`
}

type barPieceReport struct {
	IDs      []string `json:"ids"`
	Count    int      `json:"count"`
	LengthMM float64  `json:"length_mm"`
	Missing  int      `json:"missing"`
}

type barSawnReport struct {
	LengthMM float64        `json:"length_mm"`
	Count    int            `json:"count"`
	LeftMM   float64        `json:"left_mm"`
	Keep     bool           `json:"keep"`
	Cuts     []barCutReport `json:"cuts"`
}

type barCutReport struct {
	Piece     string     `json:"piece"`
	FromMM    float64    `json:"from_mm"`
	LengthMM  float64    `json:"length_mm"`
	AnglesDeg [2]float64 `json:"angles_deg"` // at the left and the right end; 0 for an end of several cuts
	Shared    bool       `json:"shared"`     // the cut before it is the last piece's too
}

type barScarfReport struct {
	Cap      string  `json:"cap"`
	FromMM   float64 `json:"from_mm"` // stations
	ToMM     float64 `json:"to_mm"`
	LengthMM float64 `json:"length_mm"`
	FoulMM   float64 `json:"foul_mm"`
}

// Report returns the planned bars for report.json.
func (b Bars) Report() BarReport {
	out := BarReport{KerfMM: round(b.Stock.Kerf), TrimMM: round(b.Stock.Trim), Jobs: []barJobReport{}, Scarfs: []barScarfReport{}}
	for _, j := range b.Jobs {
		r := barJobReport{Of: j.Of, DepthMM: round(j.Depth), WidthMM: round(j.Width), Material: j.Material, Bars: j.Plan.Bars, Cost: round(j.Plan.Cost),
			Bound: round(j.Plan.Bound), Least: j.Plan.Least, Buy: []barBuyReport{}, Pieces: []barPieceReport{}, Sawn: []barSawnReport{}}
		for i, k := range j.Kinds {
			if j.Err == nil && j.Plan.Buy[i] > 0 {
				r.Buy = append(r.Buy, barBuyReport{round(k.Length), j.Plan.Buy[i], round(k.Price)})
			}
		}
		missing := j.Missing()
		for i, p := range j.Pieces {
			r.Pieces = append(r.Pieces, barPieceReport{p.IDs, p.Count, round(p.Length), missing[i]})
		}
		for _, p := range j.Plan.Patterns {
			sawn := barSawnReport{LengthMM: round(j.Kinds[p.Stock].Length), Count: p.Count, LeftMM: round(p.Left), Keep: p.Keep}
			for _, c := range p.Cuts {
				a, _ := j.Angles(c)
				sawn.Cuts = append(sawn.Cuts, barCutReport{j.Pieces[c.Piece].IDs[0], round(c.From), round(j.Pieces[c.Piece].Length),
					[2]float64{round(a[0] * 180 / math.Pi), round(a[1] * 180 / math.Pi)}, c.Shared})
			}
			r.Sawn = append(r.Sawn, sawn)
		}
		out.Jobs = append(out.Jobs, r)
	}
	for _, s := range b.Scarfs {
		out.Scarfs = append(out.Scarfs, barScarfReport{s.Part, round(s.From), round(s.To), round(s.Length), round(s.Foul)})
	}
	return out
}

// round keeps six decimals, and makes no −0.
func round(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }
