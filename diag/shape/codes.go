package shape

import "benchlead/diag/source"

// The codes of text that is not what YAML, or these files, may hold.
const (
	CodeSyntax         source.Code = "yaml-syntax"
	CodeEmpty          source.Code = "file-empty"
	CodeSecondDocument source.Code = "second-document"
	CodeDuplicateKey   source.Code = "duplicate-key"
	CodeAlias          source.Code = "alias"
	CodeTag            source.Code = "tag"
	CodeWrongKind      source.Code = "wrong-kind"
	CodeNothing        source.Code = "empty-value"
	CodeUnknownField   source.Code = "unknown-field"
	CodeMissing        source.Code = "missing-field"
	CodeFolded         source.Code = "folded-formula"
)
