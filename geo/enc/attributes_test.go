package enc

import "strings"

// The S-57 attributes in the order of their codes, each with its type: E code,
// L list of codes, F and I number, A coded text, S text. Source: IHO S-57 App. A
// chapter 2, as listed in s57attributes.csv of GDAL 3.6.2 (MIT/X); 188 to 192
// are additions of that list.
var attributeBlocks = map[uint16]string{
	1: `AGENCY/A BCNSHP/E BUISHP/E BOYSHP/E BURDEP/F CALSGN/S CATAIR/L CATACH/L CATBRG/L CATBUA/E CATCBL/E CATCAN/E
		CATCAM/E CATCHP/E CATCOA/E CATCTR/E CATCON/E CATCOV/E CATCRN/E CATDAM/E CATDIS/E CATDOC/E CATDPG/L CATFNC/E
		CATFRY/E CATFIF/E CATFOG/E CATFOR/E CATGAT/E CATHAF/L CATHLK/L CATICE/E CATINB/E CATLND/L CATLMK/L CATLAM/E
		CATLIT/L CATMFA/E CATMPA/L CATMOR/E CATNAV/E CATOBS/E CATOFP/L CATOLB/E CATPLE/E CATPIL/E CATPIP/L CATPRA/E
		CATPYL/E CATQUA/E CATRAS/E CATRTB/E CATROS/L CATTRK/E CATRSC/L CATREA/L CATROD/E CATRUN/E CATSEA/E CATSLC/E
		CATSIT/L CATSIW/L CATSIL/E CATSLO/E CATSCF/L CATSPM/L CATTSS/E CATVEG/L CATWAT/E CATWED/E CATWRK/E CATZOC/E
		$SPACE/E $CHARS/A COLOUR/L COLPAT/L COMCHA/A $CSIZE/F CPDATE/A CSCALE/I CONDTN/E CONRAD/E CONVIS/E CURVEL/F
		DATEND/A DATSTA/A DRVAL1/F DRVAL2/F DUNITS/E ELEVAT/F ESTRNG/F EXCLIT/E EXPSOU/E FUNCTN/L HEIGHT/F HUNITS/E
		HORACC/F HORCLR/F HORLEN/F HORWID/F ICEFAC/F INFORM/S JRSDTN/E $JUSTH/E $JUSTV/E LIFCAP/F LITCHR/E LITVIS/L
		MARSYS/E MLTYLT/I NATION/A NATCON/L NATSUR/L NATQUA/L NMDATE/A OBJNAM/S ORIENT/F PEREND/A PERSTA/A PICREP/S
		PILDST/S PRCTRY/A PRODCT/L PUBREF/S QUASOU/L RADWAL/A RADIUS/F RECDAT/A RECIND/A RYRMGV/A RESTRN/L SCAMAX/I
		SCAMIN/I SCVAL1/I SCVAL2/I SECTR1/F SECTR2/F SHIPAM/A SIGFRQ/I SIGGEN/E SIGGRP/A SIGPER/F SIGSEQ/A SOUACC/F
		SDISMX/I SDISMN/I SORDAT/A SORIND/A STATUS/L SURATH/S SUREND/A SURSTA/A SURTYP/L $SCALE/F $SCODE/A TECSOU/L
		$TXSTR/S TXTDSC/S TS_TSP/A TS_TSV/A T_ACWL/E T_HWLW/A T_MTOD/E T_THDF/A T_TINT/I T_TSVL/A T_VAHC/A TIMEND/A
		TIMSTA/A $TINTS/E TOPSHP/E TRAFIC/E VALACM/F VALDCO/F VALLMA/F VALMAG/F VALMXR/F VALNMR/F VALSOU/F VERACC/F
		VERCLR/F VERCCL/F VERCOP/F VERCSA/F VERDAT/E VERLEN/F WATLEV/E CAT_TS/E PUNITS/E CLSDEF/S CLSNAM/S SYMINS/S`,
	300: `NINFOM/S NOBJNM/S NPLDST/S $NTXST/S NTXTDS/S`,
	400: `HORDAT/E POSACC/F QUAPOS/E`,
}

// knownAttribute is the acronym and type of an attribute.
type knownAttribute struct {
	name string
	kind string
}

var knownAttributes = listKnownAttributes()

func listKnownAttributes() map[uint16]knownAttribute {
	m := map[uint16]knownAttribute{}
	for first, names := range attributeBlocks {
		for i, field := range strings.Fields(names) {
			name, kind, _ := strings.Cut(field, "/")
			m[first+uint16(i)] = knownAttribute{name, kind}
		}
	}
	return m
}

// statement is what a record says about an attribute.
type statement uint8

// The statements. An attribute that is present without a value applies, and its
// value is unknown (S-57 Part 3, 4.4).
const (
	absent  statement = iota
	unknown           // present without a value
	stated
)

// valueOf is the value of an attribute and how it is stated.
func valueOf(b []byte, attribute uint16) (text string, s statement) {
	eachText(b, 1, func(code uint16, value []byte) {
		if code != attribute {
			return
		}
		if text, s = latin(string(value)), stated; text == "" {
			s = unknown
		}
	})
	return text, s
}
