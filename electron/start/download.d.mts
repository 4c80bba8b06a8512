export interface DownloadTimes {
  stall?: number;
  pauses?: number[];
}
export function download(
  url: string,
  target: string,
  how: DownloadTimes & {
    partial: string;
    onProgress?: (came: number, whole: number) => void;
    onRetry?: (error: Error) => void;
  },
): Promise<void>;
