package main

import (
	"ribwright/export"
	"ribwright/export/shop"
)

// traveller makes the traveller of a kind of rib, on the paper as it is to lie.
func traveller(j *job, o *options) (export.Drawing, error) {
	paper, err := o.paperOf(j.doc)
	if err != nil {
		return export.Drawing{}, err
	}
	if paper.Turn == "landscape" && paper.H > 0 {
		paper.W, paper.H = paper.H, paper.W
	}
	on := sheet{pages: func(j *job, p shop.Page) export.Drawing {
		return shop.Traveller(j.project.set(), j.index, j.take, j.batches, p)
	}}
	return on.onPages(j, paper), nil
}
