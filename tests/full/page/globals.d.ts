// What the page's scripts share, for the check of their types.
declare const uPlot: any;
interface Window {
  baybrief: {
    buckets: (address: string, from: number, to: number, pixels: number) =>
      Promise<{ time: Float64Array; min: (number | null)[]; max: (number | null)[] }>;
    sentences: Record<string, string>;
  };
}
