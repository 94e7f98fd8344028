package riblog_test

import (
	"fmt"

	"ribwright/geom/ribfile"
	"ribwright/geom/riblog"
)

// A line is written in the manner of the log: here of one that a spreadsheet saved.
func ExampleAppend() {
	log := "Rib;Batch;A (g);Mass (g)\r\n1;1;5,6;241,5\r\n"
	line, _ := riblog.Append("rib-log.csv", []byte(log), map[string]string{"rib": "2", "batch": "2", "a": "0.2 oz"}, ribfile.MM)
	fmt.Printf("%d: %q\n", line.Number, line.Bytes)

	l, _ := riblog.Read("rib-log.csv", append([]byte(log), line.Bytes...), ribfile.MM)
	s := riblog.Sum(l, riblog.Plan{Kinds: []riblog.Kind{{Count: 26, MassG: 239.5, SidesG: [2]float64{11.2, 6.2}}}})
	first, second, weighed := s.Glued(0)
	fmt.Println(first, second, weighed)
	// Output:
	// 3: "2;2;5,6699;\r\n"
	// 2 1 1
}
