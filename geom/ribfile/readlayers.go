package ribfile

// Layer is one entry of [layers]: what the builder's machine calls a layer, and its colour there.
type Layer struct {
	Name  string
	Color string
}

func (r *reader) layers(t tab) {
	r.doc.Layers = map[string]Layer{}
}
