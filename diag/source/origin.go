package source

import "unicode/utf8"

// Of is the origin of a piece of text that stands on one line, as it reads,
// from the given line and column of the file (both from 1).
func Of(file *File, line, column int, text string) Origin {
	return Origin{Lines: []Place{file.At(line, column, utf8.RuneCountInString(text))}}
}

// Block is the origin of a piece with several lines: places[i] is where its
// line i begins. It takes the slice over.
func Block(places []Place) Origin {
	return Origin{Lines: places}
}

// Roughly is the origin of a piece that doesn't stand in the file as it reads.
// Every spot in it is reported at that one place.
func Roughly(place Place) Origin {
	return Origin{Lines: []Place{place}, Rough: true}
}

// At is the place in the file of a spot in the piece. Line and column count
// from 1 within the piece, the column in characters. A spot that can't be
// mapped is reported at the beginning of the piece; the zero Origin gives the
// zero Place.
func (o Origin) At(line, column, length int) Place {
	if len(o.Lines) == 0 {
		return Place{}
	}
	if o.Rough || line < 1 || line > len(o.Lines) {
		return o.Start()
	}
	p := o.Lines[line-1]
	p.Column += column - 1
	p.Length = length
	return p
}

// Start is the place where the piece begins.
func (o Origin) Start() Place {
	if len(o.Lines) == 0 {
		return Place{}
	}
	return o.Lines[0]
}
