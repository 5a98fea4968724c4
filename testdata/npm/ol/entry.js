// What the chart view uses of OpenLayers, as the global `ol`.
import Kinetic from "ol/Kinetic.js";
import Map from "ol/Map.js";
import View from "ol/View.js";
import DoubleClickZoom from "ol/interaction/DoubleClickZoom.js";
import DragPan from "ol/interaction/DragPan.js";
import MouseWheelZoom from "ol/interaction/MouseWheelZoom.js";
import PinchZoom from "ol/interaction/PinchZoom.js";
import PointerInteraction from "ol/interaction/Pointer.js";
import Layer from "ol/layer/Layer.js";

globalThis.ol = { Kinetic, Map, View, DoubleClickZoom, DragPan, MouseWheelZoom, PinchZoom, PointerInteraction, Layer };
