package finding_test

import (
	"fmt"

	"ribwright/geom/finding"
)

func Example() {
	all := finding.Sort([]finding.Finding{
		{Severity: finding.Note, Code: "stick-gap", Message: "S3 leaves a gap of 0.2 mm at the upper cap.", Part: "S3"},
		{Severity: finding.Error, Code: "gusset-overlap", File: "wren.toml", Line: 31, Column: 12, Key: "gusset.diameter", Part: "U4",
			Message: "The plates at U4 and U5 overlap by 3.1 mm.", Fix: `Set diameter to "1 in" or less, or move the joints apart.`},
	})
	for _, f := range all {
		fmt.Println(f)
	}
	fmt.Println("cut files are written:", !finding.HasError(all))
	// Output:
	// note: S3 leaves a gap of 0.2 mm at the upper cap.  [stick-gap]
	// wren.toml:31:12: error: The plates at U4 and U5 overlap by 3.1 mm.
	//     Set diameter to "1 in" or less, or move the joints apart.  [gusset-overlap]
	// cut files are written: false
}
