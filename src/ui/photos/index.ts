/** The card is fetched by itself: most animals are cut without a look at a photograph. */
import { defineAsyncComponent } from 'vue';

export const PhotosCard = defineAsyncComponent(() => import('./PhotosCard.vue'));
